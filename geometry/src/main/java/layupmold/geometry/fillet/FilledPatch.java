package layupmold.geometry.fillet;

import com.carrotsearch.hppc.IntArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import java.util.function.Supplier;
import java.util.stream.IntStream;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.flange.FlangedSurface;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.simplify.CrossingRepair;
import layupmold.geometry.simplify.PleatRepair;
import layupmold.geometry.simplify.Simplifier;
import layupmold.geometry.simplify.SimplifyLimits;
import layupmold.geometry.simplify.Target;

/**
 * The triangles of a sheet that filling touches, simplified by themselves and put back. Straight moves squeeze what lies
 * deep in slits into slivers or single points; collapsing short edges takes those away.
 */
final class FilledPatch {

    private static final double LEAST_EDGE_MM = 4e-3;
    private static final double LEAST_HEIGHT_MM = 1e-3;
    /** Surfaces with more crossings are not freed of them edge by edge. */
    private static final int PAIR_LIMIT = 500;

    private record Point(double x, double y, double z) {
        static Point of(double[] xyz, int v) {
            return new Point(xyz[3 * v], xyz[3 * v + 1], xyz[3 * v + 2]);
        }

        static Point of(FilletSheet sheet, int v) {
            return new Point(sheet.filled(v, 0), sheet.filled(v, 1), sheet.filled(v, 2));
        }
    }

    /**
     * @param mesh the filled sheet without marks or unused vertices; triangles that were not touched come first
     * @param regions region of each triangle
     * @param firstTouched index of the first touched triangle
     * @param origin for each vertex the sheet's vertex that lies where it does
     */
    record Result(TriangleMesh mesh, byte[] regions, int firstTouched, int[] origin) {
    }

    private FilledPatch() {
    }

    /**
     * @param deviationMm how far simplification may move the filling
     * @param toleranceMm how far other edits may move it
     */
    static Result simplify(FilletSheet sheet, FlangedSurface given, Supplier<Target> targets, double deviationMm,
            double toleranceMm) {
        boolean[] split = sheet.split();
        IntArrayList bare = new IntArrayList();
        IntArrayList touched = new IntArrayList();
        for (int t = 0; t < sheet.triangleCount(); t++) {
            (split[sheet.source.get(t)] || sheet.isActive(t) ? touched : bare).add(t);
        }
        int[] corners = fans(sheet, touched);
        int[] own = own(sheet, touched);
        int count = Arrays.stream(corners).max().orElse(-1) + 1;
        double[] places = new double[3 * count];
        boolean[] fixed = new boolean[count];
        for (int i = 0; i < corners.length; i++) {
            for (int k = 0; k < 3; k++) {
                places[3 * corners[i] + k] = sheet.filled(own[i], k);
            }
            fixed[corners[i]] = own[i] < sheet.givenCount() && !sheet.isFilled(own[i]);
        }
        int[] labels = IntStream.range(0, touched.size())
                .map(i -> given.regions()[sheet.source.get(touched.get(i))]).toArray();
        Simplifier.Result fewer = Simplifier.simplify(new TriangleMesh(places, corners), labels, fixed,
                new SimplifyLimits(deviationMm, LEAST_EDGE_MM, LEAST_HEIGHT_MM));
        Simplifier.Result smooth = PleatRepair.repair(fewer, targets, toleranceMm);
        return uncrossed(join(sheet, own, given, bare, smooth), targets.get());
    }

    /** The sheet's vertices at the triangles' corners. */
    private static int[] own(FilletSheet sheet, IntArrayList triangles) {
        return IntStream.range(0, 3 * triangles.size())
                .map(i -> sheet.triangles.get(3 * triangles.get(i / 3) + i % 3)).toArray();
    }

    /** Corners numbered so that fans which meet in a vertex only have one each. */
    private static int[] fans(FilletSheet sheet, IntArrayList touched) {
        int[] triangles = own(sheet, touched);
        EdgeTopology topology = EdgeTopology.of(new TriangleMesh(new double[3 * sheet.vertexCount()], triangles));
        int[] corner = new int[triangles.length];
        Arrays.fill(corner, -1);
        int count = 0;
        for (int h = 0; h < triangles.length; h++) {
            if (corner[h] >= 0) {
                continue;
            }
            int first = h;
            while (topology.twin(first) >= 0 && EdgeTopology.next(topology.twin(first)) != h) {
                first = EdgeTopology.next(topology.twin(first));
            }
            int g = first;
            do {
                corner[g] = count;
                g = topology.twin(EdgeTopology.previous(g));
            } while (g >= 0 && g != first);
            count++;
        }
        return corner;
    }

    /** @param own the sheet's vertices at the corners of touched triangles, before they were simplified */
    private static Result join(FilletSheet sheet, int[] own, FlangedSurface given, IntArrayList bare,
            Simplifier.Result patch) {
        int[] kept = own(sheet, bare);
        int[] number = new int[sheet.vertexCount()];
        Arrays.fill(number, -1);
        IntArrayList origin = new IntArrayList();
        for (int v : Arrays.stream(kept).sorted().distinct().toArray()) {
            number[v] = origin.size();
            origin.add(v);
        }
        Map<Point, Integer> vertexAt = new HashMap<>();
        Map<Point, Integer> bareAt = new HashMap<>();
        for (int v : own) {
            vertexAt.putIfAbsent(Point.of(sheet, v), v);
            if (number[v] >= 0) {
                bareAt.putIfAbsent(Point.of(sheet, v), number[v]);
            }
        }
        int[] patchNumber = new int[patch.mesh().vertexCount()];
        boolean[] border = EdgeTopology.of(patch.mesh()).borderVertices(patchNumber.length);
        for (int v = 0; v < patchNumber.length; v++) {
            Point at = Point.of(patch.mesh().xyz(), v);
            Integer known = border[v] ? bareAt.get(at) : null;
            patchNumber[v] = known != null ? known : origin.size();
            if (known == null) {
                origin.add(vertexAt.get(at));
            }
        }
        int[] corners = patch.mesh().triangles();
        int[] triangles = IntStream.concat(Arrays.stream(kept).map(v -> number[v]),
                Arrays.stream(corners).map(v -> patchNumber[v])).toArray();
        byte[] regions = new byte[triangles.length / 3];
        for (int t = 0; t < regions.length; t++) {
            regions[t] = t < bare.size() ? given.regions()[sheet.source.get(bare.get(t))]
                    : (byte) patch.labels()[t - bare.size()];
        }
        double[] xyz = new double[3 * origin.size()];
        for (int i = 0; i < xyz.length; i++) {
            xyz[i] = sheet.filled(origin.get(i / 3), i % 3);
        }
        return new Result(new TriangleMesh(xyz, triangles), regions, bare.size(), origin.toArray());
    }

    /** Frees the whole of crossings, which thin triangles have with their neighbours. */
    private static Result uncrossed(Result joined, Target target) {
        int[] pairs = SelfIntersections.findInvolving(joined.mesh, joined.firstTouched, PAIR_LIMIT);
        if (pairs.length == 0 || pairs.length > PAIR_LIMIT || EdgeTopology.of(joined.mesh).nonManifoldCount() > 0) {
            return joined;
        }
        boolean[] fixed = new boolean[joined.mesh.vertexCount()];
        int[] labels = new int[joined.regions.length];
        for (int t = 0; t < labels.length; t++) {
            labels[t] = 2 * joined.regions[t] + (t < joined.firstTouched ? 0 : 1);
        }
        Simplifier.Result given = new Simplifier.Result(joined.mesh, labels, fixed);
        Simplifier.Result freed = CrossingRepair.collapse(given, target);
        if (freed == given) {
            return joined;
        }
        Map<Point, Integer> origin = new HashMap<>();
        for (int v = 0; v < joined.origin.length; v++) {
            origin.putIfAbsent(Point.of(joined.mesh.xyz(), v), joined.origin[v]);
        }
        int[] own = IntStream.range(0, freed.mesh().vertexCount())
                .map(v -> origin.get(Point.of(freed.mesh().xyz(), v))).toArray();
        byte[] regions = new byte[freed.labels().length];
        int bare = 0;
        for (int t = 0; t < regions.length; t++) {
            regions[t] = (byte) (freed.labels()[t] / 2);
            bare += 1 - freed.labels()[t] % 2;
        }
        return new Result(freed.mesh(), regions, bare, own);
    }
}
