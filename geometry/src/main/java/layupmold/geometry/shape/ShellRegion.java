package layupmold.geometry.shape;

/** What a triangle of a thin shell belongs to. */
public enum ShellRegion {
    /** Outer wall up to where the rim begins. */
    OUTER,
    /** Inner wall with its ribs and bosses. */
    INNER,
    /** The rim's half next to the outer wall, up to the crest. */
    RIM_OUTER_HALF,
    /** The rim's half next to the inner wall. */
    RIM_INNER_HALF,
    /** None of the shell: another component in the same file. */
    OTHER;

    private static final ShellRegion[] ALL = values();

    /** The region of an ordinal stored in a byte array. */
    public static ShellRegion of(byte ordinal) {
        return ALL[ordinal];
    }
}
