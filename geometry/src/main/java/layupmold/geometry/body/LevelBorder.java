package layupmold.geometry.body;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.parallel.Parallel;
import org.locationtech.jts.algorithm.locate.IndexedPointInAreaLocator;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Location;
import org.locationtech.jts.operation.union.UnaryUnionOp;

/**
 * An open sheet without the level border next to its outline, which only needs its plan to be built anew.
 *
 * @param rest what is left, facing as before, without unused vertices
 * @param regions of its triangles
 * @param loops its boundary: the border's inner rims, the rest on the left
 * @param z height of the border
 */
record LevelBorder(TriangleMesh rest, byte[] regions, List<int[]> loops, double z) {

    /** The border may be off its plane by this much where the surface was rebuilt. */
    private static final double LEVEL_MM = 0.01;
    private static final int GRAIN = 1 << 12;

    /**
     * O(n log n).
     *
     * @param mayBeBorder which triangles may be taken for border
     * @return null if the border is not level all along the outline
     */
    static LevelBorder split(TriangleMesh sheet, byte[] regions, IntPredicate mayBeBorder) {
        EdgeTopology edges = EdgeTopology.of(sheet);
        int[] queue = new int[sheet.triangleCount()];
        boolean[] border = new boolean[queue.length];
        int tail = 0;
        double z = Double.NaN;
        for (int h = 0; h < edges.halfEdgeCount(); h++) {
            if (edges.twin(h) == EdgeTopology.BOUNDARY) {
                z = Double.isNaN(z) ? sheet.xyz()[3 * edges.from(h) + 2] : z;
                if (!isLevel(sheet, h / 3, z) || !mayBeBorder.test(h / 3)) {
                    return null;
                }
                if (!border[h / 3]) {
                    border[h / 3] = true;
                    queue[tail++] = h / 3;
                }
            }
        }
        for (int head = 0; head < tail; head++) {
            for (int h = 3 * queue[head]; h < 3 * queue[head] + 3; h++) {
                int t = edges.twin(h) / 3;
                if (edges.twin(h) >= 0 && !border[t] && isLevel(sheet, t, z) && mayBeBorder.test(t)) {
                    border[t] = true;
                    queue[tail++] = t;
                }
            }
        }
        return without(border, sheet, regions, z);
    }

    private static boolean isLevel(TriangleMesh sheet, int t, double z) {
        for (int k = 0; k < 3; k++) {
            if (Math.abs(sheet.xyz()[3 * sheet.triangles()[3 * t + k] + 2] - z) > LEVEL_MM) {
                return false;
            }
        }
        return true;
    }

    private static LevelBorder without(boolean[] border, TriangleMesh sheet, byte[] regions, double z) {
        int[] kept = IntStream.range(0, border.length).filter(t -> !border[t]).toArray();
        int[] triangles = new int[3 * kept.length];
        byte[] left = new byte[kept.length];
        int[] number = new int[sheet.vertexCount()];
        Arrays.fill(number, -1);
        double[] xyz = new double[sheet.xyz().length];
        int vertices = 0;
        for (int i = 0; i < triangles.length; i++) {
            int v = sheet.triangles()[3 * kept[i / 3] + i % 3];
            if (number[v] < 0) {
                System.arraycopy(sheet.xyz(), 3 * v, xyz, 3 * vertices, 3);
                number[v] = vertices++;
            }
            triangles[i] = number[v];
            left[i / 3] = regions[kept[i / 3]];
        }
        return of(new TriangleMesh(Arrays.copyOf(xyz, 3 * vertices), triangles), left, z);
    }

    /** @param rest without unused vertices */
    static LevelBorder of(TriangleMesh rest, byte[] regions, double z) {
        EdgeTopology edges = EdgeTopology.of(rest);
        List<int[]> loops = edges.boundaryLoops().stream()
                .map(loop -> Arrays.stream(loop).map(edges::from).toArray()).toList();
        return new LevelBorder(rest, regions, loops, z);
    }

    /**
     * What the rest covers, seen along the pull: what its loops enclose, and what of it bulges past them. Nothing can
     * bulge unless some triangle faces down. O(n log n).
     */
    Geometry shadow() {
        List<Geometry> areas = new ArrayList<>();
        for (int[] loop : loops) {
            areas.add(PlanArea.of(rest.xyz(), loop));
        }
        Geometry enclosed = UnaryUnionOp.union(areas);
        int[] corners = rest.triangles();
        boolean folds = IntStream.range(0, rest.triangleCount()).anyMatch(t -> twicePlanArea(3 * t) < 0);
        if (!folds) {
            return enclosed;
        }
        boolean[] outside = outside(enclosed);
        List<Geometry> bulge = new ArrayList<>(List.of(enclosed));
        for (int t = 0; t < corners.length; t += 3) {
            if ((outside[corners[t]] || outside[corners[t + 1]] || outside[corners[t + 2]])
                    && twicePlanArea(t) != 0) {
                bulge.add(PlanArea.of(rest.xyz(), new int[] {corners[t], corners[t + 1], corners[t + 2]}));
            }
        }
        return UnaryUnionOp.union(bulge);
    }

    private double twicePlanArea(int corner) {
        double[] p = rest.xyz();
        int a = 3 * rest.triangles()[corner];
        int b = 3 * rest.triangles()[corner + 1];
        int c = 3 * rest.triangles()[corner + 2];
        return (p[b] - p[a]) * (p[c + 1] - p[a + 1]) - (p[c] - p[a]) * (p[b + 1] - p[a + 1]);
    }

    private boolean[] outside(Geometry enclosed) {
        IndexedPointInAreaLocator locator = new IndexedPointInAreaLocator(PlanArea.grow(enclosed, LEVEL_MM));
        boolean[] outside = new boolean[rest.vertexCount()];
        Parallel.forRanges(outside.length, GRAIN, (chunk, from, to) -> {
            for (int v = from; v < to; v++) {
                Coordinate at = new Coordinate(rest.xyz()[3 * v], rest.xyz()[3 * v + 1]);
                outside[v] = locator.locate(at) == Location.EXTERIOR;
            }
        });
        return outside;
    }
}
