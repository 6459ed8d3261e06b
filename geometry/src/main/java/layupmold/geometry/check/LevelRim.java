package layupmold.geometry.check;

import com.carrotsearch.hppc.DoubleArrayList;
import java.util.stream.IntStream;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Where a flange stops being level: the line around what of its border lies within a tolerance of the plane.
 *
 * <p>Where the surface was rebuilt, labels do not end just where it turns, and a long triangle of the border may leave
 * the plane at one corner only: of the border's triangles counts the part within, of the wall's and the edge's those
 * that are so as a whole.
 */
final class LevelRim {

    private final TriangleMesh solid;
    private final byte[] regions;
    private final EdgeTopology topology;
    private final double planeZ;
    private final double toleranceMm;
    private final DoubleArrayList ends = new DoubleArrayList();

    private LevelRim(TriangleMesh solid, byte[] regions, EdgeTopology topology, double planeZ, double toleranceMm) {
        this.solid = solid;
        this.regions = regions;
        this.topology = topology;
        this.planeZ = planeZ;
        this.toleranceMm = toleranceMm;
    }

    /** Its segments; O(n). */
    static TriangleMesh of(
            TriangleMesh solid, byte[] regions, EdgeTopology topology, double planeZ, double toleranceMm) {
        LevelRim rim = new LevelRim(solid, regions, topology, planeZ, toleranceMm);
        for (int t = 0; t < solid.triangleCount(); t++) {
            if (rim.isPartlyLevel(t)) {
                rim.addWhereItLeaves(t);
            }
        }
        for (int h = 0; h < topology.halfEdgeCount(); h++) {
            int twin = topology.twin(h);
            if (twin >= 0 && rim.isPartlyLevel(h / 3) && regions[twin / 3] <= MoldRegion.BORDER.ordinal()
                    && !rim.isPartlyLevel(twin / 3)) {
                rim.addLevelPart(topology.from(h), topology.to(h));
            }
        }
        return rim.segments();
    }

    private boolean isPartlyLevel(int t) {
        int level = 0;
        for (int k = 0; k < 3; k++) {
            level += isLevel(solid.triangles()[3 * t + k]) ? 1 : 0;
        }
        return regions[t] == MoldRegion.BORDER.ordinal() ? level > 0
                : level == 3 && regions[t] >= MoldRegion.WALL.ordinal() && regions[t] < MoldRegion.BORDER.ordinal();
    }

    private boolean isLevel(int v) {
        return Math.abs(height(v)) <= toleranceMm;
    }

    private double height(int v) {
        return solid.xyz()[3 * v + 2] - planeZ;
    }

    /** Across a triangle, from where its one side leaves the tolerance to where the other does. */
    private void addWhereItLeaves(int t) {
        for (int h = 3 * t; h < 3 * t + 3; h++) {
            if (isLevel(topology.from(h)) != isLevel(topology.to(h))) {
                addCrossing(topology.from(h), topology.to(h));
            }
        }
    }

    private void addLevelPart(int a, int b) {
        for (int v : new int[] {a, b}) {
            if (isLevel(v)) {
                ends.add(solid.xyz(), 3 * v, 3);
            }
        }
        if (isLevel(a) != isLevel(b)) {
            addCrossing(a, b);
        }
    }

    private void addCrossing(int a, int b) {
        double limit = Math.copySign(toleranceMm, isLevel(a) ? height(b) : height(a));
        double share = (limit - height(a)) / (height(b) - height(a));
        for (int k = 0; k < 3; k++) {
            double from = solid.xyz()[3 * a + k];
            ends.add(from + share * (solid.xyz()[3 * b + k] - from));
        }
    }

    private TriangleMesh segments() {
        return TriangleMesh.ofSegments(ends.toArray(), IntStream.range(0, ends.size() / 3).toArray());
    }
}
