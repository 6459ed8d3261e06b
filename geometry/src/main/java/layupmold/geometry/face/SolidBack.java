package layupmold.geometry.face;

import layupmold.geometry.bvh.RayHit;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.parallel.Parallel;
import org.joml.Vector3d;

/** What speaks for a solid's patches: its back looks along the pull and is seen from there; all else is face. */
final class SolidBack {

    private static final int GRAIN = 256;
    /** Sides within this of the pull count as vertical. */
    private static final double VERTICAL = Math.sin(Math.toRadians(1));

    private SolidBack() {
    }

    /** Evidence by patch for {@link WallLabels}, −1 (back) to 1 (face). */
    static float[] evidence(TriangleMesh mesh, TriangleBvh bvh, EdgeAngles edges, Patches patches, Vector3d pull) {
        float[] evidence = new float[patches.count()];
        double[] box = mesh.bounds();
        double size = new Vector3d(box[3] - box[0], box[4] - box[1], box[5] - box[2]).length();
        Parallel.forRanges(patches.count(), GRAIN, (chunk, from, to) -> {
            RayHit hit = new RayHit();
            double[] at = new double[3];
            for (int p = from; p < to; p++) {
                int t = patches.probe()[p];
                double back = edges.along(t, pull.x, pull.y, pull.z);
                if (back < VERTICAL) {
                    evidence[p] = (float) Math.max(0.4, Math.min(1, -3 * back));
                    continue;
                }
                Patches.middle(mesh, t, at);
                bvh.firstHit(at[0], at[1], at[2], pull.x, pull.y, pull.z, 1e-7 * size, 2 * size, t, hit);
                evidence[p] = (float) (hit.triangle >= 0 ? 0.4 : -Math.max(0.4, Math.min(1, 3 * back)));
            }
        });
        return evidence;
    }
}
