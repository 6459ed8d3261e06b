package layupmold.geometry.check;

import java.util.Arrays;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;

/** The flange's figures, measured on the finished solid. */
public final class FlangeMeasurement {

    /** Triangles smaller than this (twice the area, mm²) have no reliable slope in 32-bit coordinates. */
    private static final double LEAST_TWICE_AREA = 1e-3;

    private FlangeMeasurement() {
    }

    /** Least distance from the outline's corners to the border's inner rim, mm; O(n log n). */
    public static double leastBorderWidthMm(TriangleMesh solid, byte[] regions, EdgeTopology topology) {
        int[] rim = new int[solid.triangles().length];
        int n = 0;
        boolean[] onOutline = new boolean[solid.vertexCount()];
        for (int h = 0; h < topology.halfEdgeCount(); h++) {
            int twin = topology.twin(h);
            if (regions[h / 3] != MoldRegion.BORDER.ordinal() || twin < 0) {
                continue;
            }
            int beyond = regions[twin / 3];
            if (beyond < MoldRegion.BORDER.ordinal()) {
                if (n + 3 > rim.length) {
                    rim = Arrays.copyOf(rim, 2 * rim.length);
                }
                rim[n++] = topology.from(h);
                rim[n++] = topology.to(h);
                rim[n++] = topology.to(h);
            } else if (beyond == MoldRegion.SIDE.ordinal()) {
                onOutline[topology.from(h)] = true;
                onOutline[topology.to(h)] = true;
            }
        }
        TriangleBvh inner = TriangleBvh.of(new TriangleMesh(solid.xyz(), Arrays.copyOf(rim, n)));
        NearestPoint nearest = new NearestPoint();
        double least = Double.POSITIVE_INFINITY;
        double[] xyz = solid.xyz();
        for (int v = 0; v < onOutline.length; v++) {
            if (onOutline[v]) {
                inner.nearest(xyz[3 * v], xyz[3 * v + 1], xyz[3 * v + 2], 1e9, nearest);
                least = Math.min(least, nearest.distance());
            }
        }
        return least;
    }

    /** Least angle between the flange wall's triangles and the pull, degrees; 90 if there is no wall. O(n). */
    public static double leastWallDraftDeg(TriangleMesh solid, byte[] regions) {
        double least = 90;
        for (int t = 0; t < regions.length; t++) {
            if (regions[t] == MoldRegion.WALL.ordinal()) {
                Vector3d n = solid.areaNormal(t);
                if (n.length() > LEAST_TWICE_AREA) {
                    least = Math.min(least, Math.toDegrees(Math.asin(n.z / n.length())));
                }
            }
        }
        return least;
    }
}
