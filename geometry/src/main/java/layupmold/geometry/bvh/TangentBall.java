package layupmold.geometry.bvh;

/**
 * The largest ball that touches a surface in a given point and holds nothing else of it, reused by one thread.
 *
 * <p>Balls that touch in one point from one side lie inside each other, so one walk through the hierarchy is enough: the
 * ball shrinks off every triangle it meets on the way (each as in Ma, Bae, Choi, "3D medial axis point approximation
 * using nearest neighbors and the normal field", 2012), and what it has left behind it never meets again.
 */
public final class TangentBall {

    /** What a ball may touch. */
    public interface Contacts {
        /** Whether a triangle counts. */
        boolean count(int triangle);

        /** False only if no triangle below a node of the hierarchy counts. */
        boolean mayCountBelow(int node);
    }

    private static final int STACK = 96;
    private static final int MOST_STEPS = 25;
    private static final double CONVERGED = 1e-6;

    private final TriangleBvh bvh;
    private final Contacts contacts;
    private final double leastRise;
    private final int[] stack = new int[STACK];
    /** The ball's radius when a node of the stack was found to be met by it. */
    private final double[] asked = new double[STACK];
    private final NearestPoint nearest = new NearestPoint();
    private double px;
    private double py;
    private double pz;
    private double nx;
    private double ny;
    private double nz;

    /** Radius of the ball. */
    public double radiusMm;
    /** Sine of the angle under which the ball's contact rises over the tangent plane; 0 without a contact. */
    public double rise;

    /**
     * @param bvh what the ball may touch
     * @param contacts the triangles of it that count
     * @param leastRise contacts that rise less over the tangent plane do not count, as the sine of their angle
     */
    public TangentBall(TriangleBvh bvh, Contacts contacts, double leastRise) {
        this.bvh = bvh;
        this.contacts = contacts;
        this.leastRise = leastRise;
    }

    /** Shrinks a ball of {@code mostMm} that stands on (x, y, z) with its centre along the unit vector (dx, dy, dz). */
    public void shrink(double x, double y, double z, double dx, double dy, double dz, double mostMm) {
        px = x;
        py = y;
        pz = z;
        nx = dx;
        ny = dy;
        nz = dz;
        radiusMm = mostMm;
        rise = 0;
        int size = 0;
        stack[size] = 0;
        asked[size++] = Double.NaN;
        while (size > 0) {
            int node = stack[--size];
            // What was met by a larger ball need not be met by this one.
            if (asked[size] != radiusMm && distanceSquared(node) >= radiusMm * radiusMm) {
                continue;
            }
            if (node >= bvh.leafCount - 1) {
                shrinkOff(node - bvh.leafCount + 1);
                continue;
            }
            int left = 2 * node + 1;
            double dLeft = distanceSquared(left);
            double dRight = distanceSquared(left + 1);
            boolean leftFirst = dLeft <= dRight;
            size = push(size, leftFirst ? left + 1 : left, leftFirst ? dRight : dLeft);
            size = push(size, leftFirst ? left : left + 1, leftFirst ? dLeft : dRight);
        }
    }

    /** Remembers a node that the ball meets and may touch. */
    private int push(int size, int node, double distanceSquared) {
        if (distanceSquared >= radiusMm * radiusMm || !contacts.mayCountBelow(node)) {
            return size;
        }
        stack[size] = node;
        asked[size] = radiusMm;
        return size + 1;
    }

    private double distanceSquared(int node) {
        return bvh.boxDistanceSquared(node, px + radiusMm * nx, py + radiusMm * ny, pz + radiusMm * nz);
    }

    private void shrinkOff(int leaf) {
        for (int i = bvh.leafStart(leaf); i < bvh.leafStart(leaf + 1); i++) {
            int t = bvh.order()[i];
            if (contacts.count(t)) {
                for (int step = 0; step < MOST_STEPS && shrinkOnce(i); step++) {
                    // Its nearest point moves as the centre does.
                }
            }
        }
    }

    private boolean shrinkOnce(int i) {
        nearest.triangle = -1;
        nearest.distanceSquared = radiusMm * radiusMm * (1 - CONVERGED) * (1 - CONVERGED);
        bvh.onTriangle(i, px + radiusMm * nx, py + radiusMm * ny, pz + radiusMm * nz, nearest);
        if (nearest.triangle < 0) {
            return false;
        }
        double wx = nearest.x - px;
        double wy = nearest.y - py;
        double wz = nearest.z - pz;
        double height = nx * wx + ny * wy + nz * wz;
        double away = wx * wx + wy * wy + wz * wz;
        double next = away / (2 * height);
        if (!(height > leastRise * Math.sqrt(away) && next < radiusMm)) {
            return false;
        }
        radiusMm = next;
        rise = height / Math.sqrt(away);
        return true;
    }
}
