package layupmold.geometry.inspect;

/** Whether a cured part leaves its mold along the pull. */
public enum Verdict {
    /** No undercut. */
    RELEASES,
    /** Undercut no deeper than the mold and the laminate may spring. */
    RELEASES_WITH_FLEX,
    /** Deeper undercut. */
    LOCKED
}
