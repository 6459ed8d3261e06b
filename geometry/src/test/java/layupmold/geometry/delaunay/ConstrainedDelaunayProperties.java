package layupmold.geometry.delaunay;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.Polygon;

class ConstrainedDelaunayProperties {

    private static final GeometryFactory JTS = new GeometryFactory();

    /** A comb of random teeth: simple by construction, far from convex, with many near-collinear runs. */
    @Property(tries = 200)
    void spikyStarPolygons(@ForAll long seed, @ForAll @IntRange(min = 3, max = 120) int n) {
        Random random = new Random(seed);
        double[] xy = new double[2 * n];
        int[] ring = new int[n];
        for (int i = 0; i < n; i++) {
            double angle = 2 * Math.PI * (i + 0.3 * random.nextDouble()) / n;
            double radius = Math.pow(10, -2 * random.nextDouble());
            xy[2 * i] = radius * Math.cos(angle);
            xy[2 * i + 1] = radius * Math.sin(angle);
            ring[i] = i;
        }
        int[][] rings = {ring};
        int[] triangles = ConstrainedDelaunay.polygon(xy, rings);
        assertEquals(3 * (n - 2), triangles.length);
        assertEquals(0, TriangulationChecks.twiceArea(xy, ring)
                .compareTo(TriangulationChecks.coveredTwice(xy, triangles)));
        TriangulationChecks.assertSegmentsPresent(triangles, TriangulationChecks.segmentsOf(rings));
        TriangulationChecks.assertLocallyDelaunay(xy, triangles, TriangulationChecks.segmentsOf(rings));
        Polygon truth = polygon(xy, ring);
        assertEquals(truth.getArea(), TriangulationChecks.coveredTwice(xy, triangles).doubleValue() / 2,
                1e-9 * truth.getArea());
    }

    /** Points on a coarse lattice, so that collinear and cocircular sets abound; segments that JTS finds disjoint. */
    @Property(tries = 300)
    void latticeGraphs(@ForAll long seed, @ForAll @IntRange(min = 3, max = 14) int side) {
        Random random = new Random(seed);
        List<Coordinate> points = new ArrayList<>();
        for (int i = 0; i < side * side; i++) {
            if (random.nextInt(3) > 0) {
                points.add(new Coordinate(i % side, i / side));
            }
        }
        double[] xy = new double[2 * points.size()];
        for (int p = 0; p < points.size(); p++) {
            xy[2 * p] = points.get(p).x;
            xy[2 * p + 1] = points.get(p).y;
        }
        int[] segments = compatibleSegments(points, random, 3 * side);
        int[] triangles = ConstrainedDelaunay.graph(xy, segments);
        double hull = JTS.createMultiPointFromCoords(points.toArray(new Coordinate[0])).convexHull().getArea();
        assertEquals(2 * hull, TriangulationChecks.coveredTwice(xy, triangles).doubleValue(), 0);
        if (hull > 0) {
            TriangulationChecks.assertSegmentsPresent(triangles, segments);
        }
        TriangulationChecks.assertLocallyDelaunay(xy, triangles, segments);
    }

    /** Holes of random outline in cells of a frame. */
    @Property(tries = 60)
    void polygonsWithHoles(@ForAll long seed, @ForAll @IntRange(min = 1, max = 6) int cells) {
        Random random = new Random(seed);
        List<int[]> rings = new ArrayList<>();
        List<Double> xy = new ArrayList<>();
        rings.add(star(xy, cells / 2.0, cells / 2.0, cells, cells, 40, random));
        for (int i = 0; i < cells; i++) {
            for (int j = 0; j < cells; j++) {
                if (random.nextBoolean()) {
                    rings.add(star(xy, i + 0.5, j + 0.5, 0.05, 0.49, 3 + random.nextInt(20), random));
                }
            }
        }
        double[] points = xy.stream().mapToDouble(Double::doubleValue).toArray();
        int[][] array = rings.toArray(new int[0][]);
        int[] triangles = ConstrainedDelaunay.polygon(points, array);
        double expected = 0;
        for (int r = 0; r < array.length; r++) {
            double area = polygon(points, array[r]).getArea();
            expected += r == 0 ? area : -area;
        }
        assertEquals(expected, TriangulationChecks.coveredTwice(points, triangles).doubleValue() / 2, 1e-9);
        assertEquals(3 * (points.length / 2 + 2 * (array.length - 2)), triangles.length);
        TriangulationChecks.assertLocallyDelaunay(points, triangles, TriangulationChecks.segmentsOf(array));
    }

    private static int[] star(
            List<Double> xy, double x, double y, double inner, double outer, int n, Random random) {
        int[] ring = new int[n];
        for (int i = 0; i < n; i++) {
            double angle = 2 * Math.PI * (i + 0.4 * random.nextDouble()) / n;
            double radius = inner + (outer - inner) * random.nextDouble();
            ring[i] = xy.size() / 2;
            xy.add(x + radius * Math.cos(angle));
            xy.add(y + radius * Math.sin(angle));
        }
        return ring;
    }

    private static int[] compatibleSegments(List<Coordinate> points, Random random, int attempts) {
        List<LineString> lines = new ArrayList<>();
        List<Integer> pairs = new ArrayList<>();
        for (int k = 0; k < attempts && points.size() > 1; k++) {
            int a = random.nextInt(points.size());
            int b = random.nextInt(points.size());
            LineString line = JTS.createLineString(new Coordinate[] {points.get(a), points.get(b)});
            if (a != b && points.stream().noneMatch(p -> p != points.get(a) && p != points.get(b)
                    && line.intersects(JTS.createPoint(p))) && lines.stream().noneMatch(l -> l.crosses(line))) {
                lines.add(line);
                pairs.add(a);
                pairs.add(b);
            }
        }
        return pairs.stream().mapToInt(Integer::intValue).toArray();
    }

    private static Polygon polygon(double[] xy, int[] ring) {
        Coordinate[] shell = new Coordinate[ring.length + 1];
        for (int i = 0; i <= ring.length; i++) {
            int v = ring[i % ring.length];
            shell[i] = new Coordinate(xy[2 * v], xy[2 * v + 1]);
        }
        return JTS.createPolygon(shell);
    }
}
