package layupmold.geometry.recipe;

/** On which side of the tool the laminate lies. */
public enum Tool {
    /** The laminate lies inside a cavity; the tool touches the face's outer side. */
    FEMALE,
    /** The laminate lies over a plug; the tool touches the inner side. */
    MALE
}
