package layupmold.geometry.simplify;

/** The surface that a mesh stands for; used by one thread. */
public interface Target {

    /** Signed distance of a point from it, mm. */
    double miss(double x, double y, double z);

    /** Says that much will be asked about places within {@code reachMm} of (x, y, z), which may make that faster. */
    default void beside(double x, double y, double z, double reachMm) {
    }

    /** Component of (x, y, z) along its front at the point last asked about. */
    double along(double x, double y, double z);

    /** How far the last point stands over the surface if its edges are rounded, as far as they may be mitred too; mm. */
    default double overRoundMm() {
        return 0;
    }
}
