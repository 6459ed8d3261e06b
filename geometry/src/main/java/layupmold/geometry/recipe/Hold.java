package layupmold.geometry.recipe;

/** Which face of the finished part keeps the modelled size. */
public enum Hold {
    INNER, OUTER
}
