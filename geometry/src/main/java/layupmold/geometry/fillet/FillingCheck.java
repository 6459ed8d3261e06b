package layupmold.geometry.fillet;

import com.carrotsearch.hppc.IntArrayList;
import java.util.stream.IntStream;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.parallel.Parallel;
import org.joml.Vector3d;

/**
 * Looks at a filled sheet for what must not be: triangles that cross others or face away from the ball, middles that
 * miss the filling, edges that do not join two triangles. O(n log n) plus a probe for each triangle of the filling.
 */
final class FillingCheck {

    private static final int PAIR_LIMIT = 10_000;
    private static final int GRAIN = 256;
    /** How far the filling may be off, on the tool, mm. */
    private static final double TOLERANCE_MM = 0.03;
    /** A triangle without this height has no direction to speak of. */
    private static final double FLAT_MM = 5e-3;

    private final RollingBall rolling;
    private final FreeCentres centres;
    private final FilledPatch.Result filled;
    private final FilletSheet sheet;

    FillingCheck(RollingBall rolling, FreeCentres centres, FilledPatch.Result filled, FilletSheet sheet) {
        this.rolling = rolling;
        this.centres = centres;
        this.filled = filled;
        this.sheet = sheet;
    }

    /**
     * Touched triangles at fault.
     *
     * @param unsound those that cross others or do not join their neighbours
     * @param off those that miss the filling or face away from the ball
     */
    record Wrong(int[] unsound, int[] off) {
    }

    /** @param marked the mesh with its marks */
    Wrong find(TriangleMesh marked) {
        IntArrayList faults = new IntArrayList();
        int first = filled.firstTouched();
        for (int t : SelfIntersections.findInvolving(marked, first, PAIR_LIMIT)) {
            if (t >= first) {
                faults.add(t);
            }
        }
        boolean[] border = EdgeTopology.of(new TriangleMesh(new double[3 * sheet.vertexCount()],
                sheet.triangles.toArray())).borderVertices(sheet.vertexCount());
        EdgeTopology topology = EdgeTopology.of(marked);
        for (int h = 3 * first; h < topology.halfEdgeCount(); h++) {
            if (topology.twin(h) < 0 && !(border[filled.origin()[topology.from(h)]]
                    && border[filled.origin()[topology.to(h)]])) {
                faults.add(h / 3);
            }
        }
        boolean[] off = new boolean[marked.triangleCount()];
        Parallel.forRanges(off.length - first, GRAIN, (chunk, from, to) -> {
            FilledTarget target = new FilledTarget(rolling, centres, sheet.faults);
            for (int t = first + from; t < first + to; t++) {
                off[t] = isOff(t, target);
            }
        });
        return new Wrong(faults.toArray(), IntStream.range(first, off.length).filter(t -> off[t]).toArray());
    }

    private boolean isOff(int t, FilledTarget target) {
        double[] p = new double[3];
        double[] xyz = filled.mesh().xyz();
        double longest = 0;
        for (int i = 0; i < 3; i++) {
            int v = filled.mesh().triangles()[3 * t + i];
            Spot spot = sheet.spots.get(filled.origin()[v]);
            if (spot != null && spot.share < 1) {
                return false;
            }
            for (int k = 0; k < 3; k++) {
                p[k] += xyz[3 * v + k] / 3;
            }
            longest = Math.max(longest, filled.mesh().corner(t, i).distance(filled.mesh().corner(t, (i + 1) % 3)));
        }
        double miss = target.miss(p[0], p[1], p[2]);
        Vector3d normal = filled.mesh().areaNormal(t);
        boolean turned = target.along(normal.x, normal.y, normal.z) <= 0 && normal.length() > FLAT_MM * longest;
        return turned || Math.abs(miss) > rolling.share() * TOLERANCE_MM;
    }
}
