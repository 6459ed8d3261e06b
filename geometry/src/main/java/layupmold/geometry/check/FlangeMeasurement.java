package layupmold.geometry.check;

import java.util.Arrays;
import java.util.Comparator;
import java.util.stream.IntStream;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;

/** The flange's figures, measured on the finished solid. */
public final class FlangeMeasurement {

    /** Where folds of the face reach the flange, hundredths of a square millimetre face anywhere: no cloth notices. */
    private static final double IGNORED_SHARE = 1e-3;

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

    /** Least angle between wall and pull of all but a thousandth of its area, degrees; 90 without a wall. O(n log n). */
    public static double leastWallDraftDeg(TriangleMesh solid, byte[] regions) {
        int[] wall = IntStream.range(0, regions.length).filter(t -> regions[t] == MoldRegion.WALL.ordinal()).toArray();
        double[][] draftAndArea = new double[wall.length][];
        double area = 0;
        for (int i = 0; i < wall.length; i++) {
            Vector3d n = solid.areaNormal(wall[i]);
            double length = n.length();
            draftAndArea[i] = new double[] {length > 0 ? n.z / length : 1, length / 2};
            area += length / 2;
        }
        Arrays.sort(draftAndArea, Comparator.comparingDouble(facet -> facet[0]));
        double passed = 0;
        for (double[] facet : draftAndArea) {
            passed += facet[1];
            if (passed > IGNORED_SHARE * area) {
                return Math.toDegrees(Math.asin(facet[0]));
            }
        }
        return 90;
    }
}
