package layupmold.geometry.face;

/** The three kinds of part a maker posts. */
public enum PartKind {
    /** Two walls joined by rims. */
    CLOSED_SHELL("closed-shell"),
    /** One surface with an edge and no thickness. */
    OPEN_SHEET("open-sheet"),
    /** A closed surface that is not thin. */
    SOLID("solid");

    private final String label;

    PartKind(String label) {
        this.label = label;
    }

    /** The kind's name in reports. */
    public String label() {
        return label;
    }
}
