package layupmold.geometry.finding;

/** How much a finding matters to the maker. */
public enum Severity {
    /** A figure worth knowing. */
    INFO,
    /** The mold is sound, but look at this before printing. */
    WARNING,
    /** No mold can be given for this part and recipe. */
    ERROR
}
