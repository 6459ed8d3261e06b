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

    /** Whether the laminate on it is of the face's shape, an opening's patch included. */
    public boolean isCopied() {
        return this == TOOL || this == CAP;
    }

    /** The same of each triangle with one of these ordinals. */
    public static boolean[] areCopied(byte[] ordinals) {
        boolean[] copied = new boolean[ordinals.length];
        for (int i = 0; i < copied.length; i++) {
            copied[i] = of(ordinals[i]).isCopied();
        }
        return copied;
    }
}
