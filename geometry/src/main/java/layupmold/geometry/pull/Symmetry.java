package layupmold.geometry.pull;

import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.bvh.TriangleBvh;
import org.joml.Vector3d;

/** Tests a surface for symmetry by moving points of it and asking whether they land on it again. */
final class Symmetry {

    private static final int POINTS = 250;
    private static final double TOLERANCE = 0.004;
    private static final double LEAST_SHARE = 0.97;

    private final TriangleBvh bvh;
    private final SurfaceSamples samples;
    private final Vector3d centre;
    private final double size;

    /** @param size the surface's diameter: points may miss by 0.4 % of it */
    Symmetry(TriangleBvh bvh, SurfaceSamples samples, double size) {
        this.bvh = bvh;
        this.samples = samples;
        this.size = size;
        Vector3d sum = new Vector3d();
        for (int i = 0; i < samples.count(); i++) {
            sum.add(at(i));
        }
        this.centre = sum.div(samples.count());
    }

    private Vector3d at(int i) {
        return new Vector3d(samples.position()[3 * i], samples.position()[3 * i + 1], samples.position()[3 * i + 2]);
    }

    /** True if half a turn about {@code axis} through the centre changes nothing. */
    boolean hasHalfTurn(Vector3d axis) {
        return holds(p -> p.reflect(axis).negate());
    }

    /** True if the plane across {@code normal} through the centre is a mirror. */
    boolean hasMirror(Vector3d normal) {
        return holds(p -> p.reflect(normal));
    }

    private interface Motion {
        void apply(Vector3d fromCentre);
    }

    private boolean holds(Motion motion) {
        NearestPoint nearest = new NearestPoint();
        int step = Math.max(1, samples.count() / POINTS);
        int tried = 0;
        int landed = 0;
        for (int i = 0; i < samples.count(); i += step) {
            Vector3d p = at(i).sub(centre);
            motion.apply(p);
            p.add(centre);
            bvh.nearest(p.x, p.y, p.z, TOLERANCE * size, nearest);
            tried++;
            landed += nearest.triangle >= 0 ? 1 : 0;
        }
        return landed >= LEAST_SHARE * tried;
    }
}
