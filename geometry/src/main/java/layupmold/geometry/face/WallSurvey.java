package layupmold.geometry.face;

import java.util.Arrays;
import layupmold.geometry.bvh.RayHit;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.parallel.Parallel;
import org.joml.Vector3d;

/**
 * What rays say about each patch: how openly it is seen from the mold's side, and which patch lies behind it through the
 * material.
 *
 * @param seen cosine-weighted share, 0 to 1, of the directions on the mold's side from which the patch is seen
 * @param against cosine between the patch's normal and the way against the pull: the outer wall's lies above its inner's
 * @param opposite patch met first by the inward ray if it faces the other way, else -1
 * @param depthMm length of the inward ray inside the material; infinite if it leaves nowhere
 * @param facing cosine between the patch's inward normal and the normal where the ray leaves
 */
record WallSurvey(float[] seen, float[] against, int[] opposite, double[] depthMm, double[] facing) {

    private static final int DIRECTIONS = 24;
    private static final int GRAIN = 256;
    /** Least cosine between a wall's inward normal and the other wall's outward normal: uneven walls taper. */
    private static final double FACING_COS = Math.cos(Math.toRadians(35));
    /** A normal that sees less than this of the mold's hemisphere counts as seen in that proportion. */
    private static final double LEAST_WEIGHT = 0.15;

    static WallSurvey of(TriangleMesh mesh, TriangleBvh bvh, EdgeAngles edges, Patches patches, Vector3d pull) {
        WallSurvey survey = new WallSurvey(new float[patches.count()], new float[patches.count()],
                new int[patches.count()], new double[patches.count()], new double[patches.count()]);
        double[] directions = hemisphere(pull);
        double[] box = mesh.bounds();
        double size = new Vector3d(box[3] - box[0], box[4] - box[1], box[5] - box[2]).length();
        Parallel.forRanges(patches.count(), GRAIN, (chunk, from, to) -> {
            RayHit hit = new RayHit();
            double[] at = new double[3];
            for (int p = from; p < to; p++) {
                int t = patches.probe()[p];
                Patches.middle(mesh, t, at);
                survey.against[p] = (float) -edges.along(t, pull.x, pull.y, pull.z);
                survey.seen[p] = seen(bvh, edges, directions, t, at, size);
                survey.lookThrough(bvh, edges, patches, p, at, size, hit);
            }
        });
        return survey;
    }

    /** Unit directions towards the mold's side, evenly spread (a Fibonacci lattice). */
    private static double[] hemisphere(Vector3d pull) {
        Vector3d axis = new Vector3d(pull).negate();
        Vector3d u = new Vector3d(Math.abs(axis.x) < 0.6 ? 1 : 0, Math.abs(axis.x) < 0.6 ? 0 : 1, 0)
                .cross(axis).normalize();
        Vector3d v = new Vector3d(axis).cross(u);
        double golden = Math.PI * (3 - Math.sqrt(5));
        double[] out = new double[3 * DIRECTIONS];
        for (int i = 0; i < DIRECTIONS; i++) {
            double height = (i + 0.5) / DIRECTIONS;
            double radius = Math.sqrt(1 - height * height);
            Vector3d d = new Vector3d(axis).mul(height)
                    .fma(radius * Math.cos(golden * i), u)
                    .fma(radius * Math.sin(golden * i), v);
            out[3 * i] = d.x;
            out[3 * i + 1] = d.y;
            out[3 * i + 2] = d.z;
        }
        return out;
    }

    private static float seen(TriangleBvh bvh, EdgeAngles edges, double[] directions, int t, double[] at,
            double size) {
        double weight = 0;
        double open = 0;
        for (int i = 0; i < directions.length; i += 3) {
            double dx = directions[i];
            double dy = directions[i + 1];
            double dz = directions[i + 2];
            double cos = edges.along(t, dx, dy, dz);
            if (cos < 0.05) {
                continue;
            }
            weight += cos;
            open += bvh.isHit(at[0], at[1], at[2], dx, dy, dz, 1e-7 * size, t) ? 0 : cos;
        }
        // Half the directions would carry a mean cosine of one half if the normal looked straight at the mold.
        return (float) (open / Math.max(weight, LEAST_WEIGHT * directions.length / 6));
    }

    private void lookThrough(TriangleBvh bvh, EdgeAngles edges, Patches patches, int p, double[] at, double size,
            RayHit hit) {
        int t = patches.probe()[p];
        double nx = -edges.normals()[3 * t];
        double ny = -edges.normals()[3 * t + 1];
        double nz = -edges.normals()[3 * t + 2];
        opposite[p] = -1;
        depthMm[p] = Double.POSITIVE_INFINITY;
        if (nx == 0 && ny == 0 && nz == 0) {
            return;
        }
        bvh.firstHit(at[0], at[1], at[2], nx, ny, nz, 1e-7 * size, 2 * size, t, hit);
        if (hit.triangle < 0) {
            return;
        }
        depthMm[p] = hit.t;
        facing[p] = edges.along(hit.triangle, nx, ny, nz);
        if (facing[p] > FACING_COS) {
            opposite[p] = patches.ofTriangle()[hit.triangle];
        }
    }

    /** Patches whose inward ray leaves through a surface that faces the other way. */
    boolean isPaired(int p) {
        return opposite[p] >= 0;
    }

    /** Area-weighted median depth of the paired patches, NaN if there are none. */
    double medianDepthMm(Patches patches) {
        long[] byDepth = new long[patches.count()];
        int n = 0;
        double total = 0;
        for (int p = 0; p < patches.count(); p++) {
            if (isPaired(p)) {
                byDepth[n++] = ((long) Float.floatToIntBits((float) depthMm[p]) << 32) | p;
                total += patches.area()[p];
            }
        }
        Arrays.sort(byDepth, 0, n);
        double sum = 0;
        for (int i = 0; i < n; i++) {
            int p = (int) byDepth[i];
            sum += patches.area()[p];
            if (sum >= total / 2) {
                return depthMm[p];
            }
        }
        return Double.NaN;
    }
}
