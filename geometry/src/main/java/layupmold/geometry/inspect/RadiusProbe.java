package layupmold.geometry.inspect;

import com.carrotsearch.hppc.IntArrayList;
import layupmold.geometry.bvh.FreeBall;
import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.bvh.NormalBoxes;
import layupmold.geometry.bvh.RestingBall;
import layupmold.geometry.bvh.TangentBall;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.mesh.CornerNormals;
import org.joml.Vector3d;

/**
 * How tightly the surface that carries cloth bends at a point: the radius of the largest ball that touches it there and
 * holds no other surface point, on the cloth's side (concave) or inside the solid (convex). Reused by one thread.
 *
 * <p>The ball stands on the smoothed normal and passes through triangles within 30° of it or of the point's own
 * triangle, so that a curved wall of flat facets measures its curve, while corners of more than 30°, and surfaces that
 * stand opposite, count. A radius cut into facets of 6° is found within about 3 %, except on the last facet before an
 * edge, whose normal cannot be smoothed: there it may read up to a fifth tighter.
 */
final class RadiusProbe implements TangentBall.Contacts {

    /** Cosine of 30°. */
    private static final double APART = 0.8660254037844386;
    /** Sine of 5°: contacts that rise less above the point's tangent plane are its own edge or noise. */
    private static final double LEAST_RISE = 0.08715574274765817;

    private static final double BESIDE_BY_RADIUS = 0.1;
    private static final int MOST_BESIDE = 32;

    private final MeasuredSolid solid;
    private final TriangleBvh bvh;
    private final double[] unit;
    private final NormalBoxes turns;
    private final CornerNormals smooth;
    private final TangentBall ball;
    private final NearestPoint nearest = new NearestPoint();
    private final double[] normal = new double[9];
    private final double[] centre = new double[3];
    private int own;
    private double px;
    private double py;
    private double pz;
    private double nx;
    private double ny;
    private double nz;

    RadiusProbe(MeasuredSolid solid, CornerNormals smooth) {
        this.solid = solid;
        this.bvh = solid.bvh();
        this.unit = solid.normals();
        this.turns = solid.turns();
        this.smooth = smooth;
        this.ball = new TangentBall(solid.bvh(), this, LEAST_RISE);
    }

    /** Goes to a point of {@code triangle}; returns itself. */
    RadiusProbe at(double x, double y, double z, int triangle) {
        px = x;
        py = y;
        pz = z;
        own = 3 * triangle;
        for (int k = 0; k < 3; k++) {
            smooth.put(own + k, normal, 3 * k);
        }
        interpolate();
        return this;
    }

    /** Radius of the ball on the cloth's side, at most {@code capMm}. */
    double concaveMm(double capMm) {
        return shrink(capMm, 1);
    }

    /** Radius of the ball inside the solid, at most {@code capMm}. */
    double convexMm(double capMm) {
        return shrink(capMm, -1);
    }

    /** How far a cloth that follows {@code radiusMm} stands off the point, or less. */
    double gapMm(double radiusMm) {
        return RestingBall.gapMm(
                bvh, px, py, pz, nx, ny, nz, radiusMm, 0, solid::carriesCloth, nearest, centre);
    }

    /**
     * The same from the nearest place that the ball rolls to. One that is set on the side of a shallow pleat is pushed
     * far aside, although the cloth does not notice the pleat: balls on the triangles beside it are tried as well.
     */
    double leastGapMm(double radiusMm) {
        double gap = gapMm(radiusMm);
        FreeBall rolling = new FreeBall(solid.mesh(), bvh, radiusMm);
        double least = rolling.approach(px, py, pz, centre[0], centre[1], centre[2]);
        IntArrayList beside = beside(BESIDE_BY_RADIUS * radiusMm);
        Vector3d front = new Vector3d();
        for (int i = 0; i < beside.size(); i++) {
            front.add(solid.mesh().areaNormal(beside.get(i)));
        }
        for (int i = 0; i < beside.size(); i++) {
            int n = 3 * beside.get(i);
            double x = px + radiusMm * unit[n];
            double y = py + radiusMm * unit[n + 1];
            double z = pz + radiusMm * unit[n + 2];
            // A pleat may face into the solid, where a ball has room as well.
            if (front.dot(unit[n], unit[n + 1], unit[n + 2]) > 0
                    && rolling.cutMm(x, y, z) < BESIDE_BY_RADIUS * radiusMm) {
                least = Math.min(least, rolling.approach(px, py, pz, x, y, z));
            }
        }
        return Math.min(gap, Math.max(0, least - radiusMm));
    }

    /** Some triangles that carry cloth within about a distance of the point. */
    private IntArrayList beside(double reach) {
        IntArrayList beside = new IntArrayList();
        bvh.overlapping(px - reach, py - reach, pz - reach, px + reach, py + reach, pz + reach, t -> {
            if (solid.carriesCloth(t)) {
                beside.add(t);
            }
            return beside.size() < MOST_BESIDE;
        });
        return beside;
    }

    private double shrink(double capMm, int side) {
        ball.shrink(px, py, pz, side * nx, side * ny, side * nz, capMm);
        return ball.radiusMm;
    }

    @Override
    public boolean count(int other) {
        int t = 3 * other;
        return nx * unit[t] + ny * unit[t + 1] + nz * unit[t + 2] < APART
                && unit[own] * unit[t] + unit[own + 1] * unit[t + 1] + unit[own + 2] * unit[t + 2] < APART
                && solid.carriesCloth(other);
    }

    @Override
    public boolean mayCountBelow(int node) {
        return turns.leastAlong(node, nx, ny, nz) < APART
                && turns.leastAlong(node, unit[own], unit[own + 1], unit[own + 2]) < APART;
    }

    /** The corner normals weighted by the point's barycentric coordinates, which are ratios of areas. */
    private void interpolate() {
        double[] p = solid.mesh().xyz();
        int[] corners = solid.mesh().triangles();
        double x = 0;
        double y = 0;
        double z = 0;
        for (int k = 0; k < 3; k++) {
            int a = 3 * corners[own + (k + 1) % 3];
            int b = 3 * corners[own + (k + 2) % 3];
            double share = twiceArea(p[a] - px, p[a + 1] - py, p[a + 2] - pz, p[b] - px, p[b + 1] - py, p[b + 2] - pz);
            x += share * normal[3 * k];
            y += share * normal[3 * k + 1];
            z += share * normal[3 * k + 2];
        }
        double length = Math.sqrt(x * x + y * y + z * z);
        nx = length > 0 ? x / length : unit[own];
        ny = length > 0 ? y / length : unit[own + 1];
        nz = length > 0 ? z / length : unit[own + 2];
    }

    private static double twiceArea(double ux, double uy, double uz, double vx, double vy, double vz) {
        double x = uy * vz - uz * vy;
        double y = uz * vx - ux * vz;
        double z = ux * vy - uy * vx;
        return Math.sqrt(x * x + y * y + z * z);
    }
}
