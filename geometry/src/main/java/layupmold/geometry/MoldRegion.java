package layupmold.geometry;

/** What a triangle of the finished mold belongs to. */
public enum MoldRegion {
    /** The face, offset. */
    TOOL,
    /** The patch over an opening, offset. */
    CAP,
    /** Drafted wall between perimeter and border. */
    WALL,
    /** Rounded edge between wall and border. */
    EDGE,
    /** Level border. */
    BORDER,
    /** Outer sides. */
    SIDE,
    /** What stands on the printer's bed. */
    BASE,
    /** Island in an opening: carries release layer, no cloth. */
    PLUG,
    /** Pry notches and screw holes in the border. */
    RECESS;

    /** The region of an ordinal stored in a byte array. */
    public static MoldRegion of(byte ordinal) {
        return values()[ordinal];
    }
}
