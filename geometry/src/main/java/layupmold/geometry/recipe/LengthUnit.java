package layupmold.geometry.recipe;

/** Unit of a mesh file's numbers. */
public enum LengthUnit {
    MICRON(0.001), MM(1), CM(10), M(1000), INCH(25.4), FOOT(304.8);

    private final double inMm;

    LengthUnit(double inMm) {
        this.inMm = inMm;
    }

    /** How many millimetres one of this unit is. */
    public double inMm() {
        return inMm;
    }
}
