package layupmold.geometry.opening;

import java.util.List;
import layupmold.geometry.bvh.ClosestPoint;
import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;

/** Which openings points in or beside them mean. */
public final class NearestOpenings {

    private NearestOpenings() {
    }

    /**
     * The distance to an opening is that to the fan from its corners' mean to its edge, so that a point inside a wide
     * opening is not taken for one beside its narrow neighbour. O(points × edges of all loops).
     *
     * @param loops boundary half-edges of each opening
     * @return for each opening whether it is the nearest to a point, the first of equals
     */
    public static boolean[] of(
            TriangleMesh face, EdgeTopology topology, List<int[]> loops, List<Vector3d> points) {
        boolean[] meant = new boolean[loops.size()];
        for (Vector3d point : points) {
            NearestPoint nearest = new NearestPoint();
            nearest.begin(Double.POSITIVE_INFINITY);
            for (int i = 0; i < meant.length; i++) {
                approach(face, topology, loops.get(i), point, i, nearest);
            }
            if (nearest.triangle >= 0) {
                meant[nearest.triangle] = true;
            }
        }
        return meant;
    }

    /** Lowers {@code nearest} to opening {@code index} if its fan is nearer. */
    private static void approach(TriangleMesh face, EdgeTopology topology, int[] loop, Vector3d point, int index,
            NearestPoint nearest) {
        Vector3d mean = new Vector3d();
        for (int h : loop) {
            mean.add(face.vertex(topology.from(h)));
        }
        mean.div(loop.length);
        double[] fan = {mean.x, mean.y, mean.z, 0, 0, 0, 0, 0, 0};
        for (int h : loop) {
            System.arraycopy(face.xyz(), 3 * topology.from(h), fan, 3, 3);
            System.arraycopy(face.xyz(), 3 * topology.to(h), fan, 6, 3);
            ClosestPoint.onTriangle(fan, 0, 3, 6, point.x, point.y, point.z, index, nearest);
        }
    }
}
