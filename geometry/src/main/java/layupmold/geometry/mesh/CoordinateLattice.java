package layupmold.geometry.mesh;

/**
 * Evenly spaced coordinates that a 32-bit float holds exactly anywhere within a printer's reach, so that a mesh checked
 * on them is the mesh that files keep, wherever a shift by whole steps puts it.
 *
 * @param stepMm spacing, a power of two
 */
public record CoordinateLattice(double stepMm) {

    /** Significant bits of an IEEE 754 binary32. */
    private static final int FLOAT_BITS = 24;
    private static final double FINEST_MM = 0x1p-14;

    /**
     * @param extentMm no coordinate of the finished solid is farther than this from its frame's origin
     * @return the finest lattice for it, but no finer than 0.06 µm
     */
    public static CoordinateLattice within(double extentMm) {
        double step = FINEST_MM;
        while (step * (1L << FLOAT_BITS) < extentMm) {
            step *= 2;
        }
        return new CoordinateLattice(step);
    }

    public double round(double mm) {
        return Math.rint(mm / stepMm) * stepMm;
    }

    /** The next coordinate at or below {@code mm}. */
    public double below(double mm) {
        return Math.floor(mm / stepMm) * stepMm;
    }

    /** Rounds in place. */
    public double[] round(double[] mm) {
        for (int i = 0; i < mm.length; i++) {
            mm[i] = round(mm[i]);
        }
        return mm;
    }
}
