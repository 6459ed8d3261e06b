package layupmold.geometry.delaunay;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import java.util.Random;
import layupmold.geometry.delaunay.PlanarGraphException.Kind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.triangulate.DelaunayTriangulationBuilder;

class ConstrainedDelaunayTest {

    private static final int[] NO_SEGMENTS = {};

    @Test
    void squareBecomesTwoTriangles() {
        double[] xy = {0, 0, 1, 0, 1, 1, 0, 1};
        int[] triangles = ConstrainedDelaunay.polygon(xy, new int[][] {{0, 1, 2, 3}});
        assertEquals(6, triangles.length);
        assertEquals(BigDecimal.valueOf(2), TriangulationChecks.coveredTwice(xy, triangles));
    }

    @Test
    void clockwiseRingGivesCounterClockwiseTriangles() {
        double[] xy = {0, 0, 0, 1, 1, 1, 1, 0};
        assertEquals(BigDecimal.valueOf(2),
                TriangulationChecks.coveredTwice(xy, ConstrainedDelaunay.polygon(xy, new int[][] {{0, 1, 2, 3}})));
    }

    @Test
    void pointsNotOnARingAreLeftOut() {
        double[] xy = {5, 5, 0, 0, 9, 0, 9, 9, 0, 9};
        int[] triangles = ConstrainedDelaunay.polygon(xy, new int[][] {{1, 2, 3, 4}});
        assertTrue(Arrays.stream(triangles).noneMatch(v -> v == 0));
        int[] withPoint = ConstrainedDelaunay.polygon(xy, new int[][] {{1, 2, 3, 4}}, new int[] {0});
        assertEquals(12, withPoint.length);
    }

    @Test
    void islandInHoleIsInside() {
        double[] xy = new double[24];
        int[][] rings = new int[3][];
        for (int r = 0; r < 3; r++) {
            double s = 3 - r;
            System.arraycopy(new double[] {-s, -s, s, -s, s, s, -s, s}, 0, xy, 8 * r, 8);
            rings[r] = new int[] {4 * r, 4 * r + 1, 4 * r + 2, 4 * r + 3};
        }
        int[] triangles = ConstrainedDelaunay.polygon(xy, rings);
        assertEquals(BigDecimal.valueOf(2 * (36 - 16 + 4)), TriangulationChecks.coveredTwice(xy, triangles));
    }

    @Test
    void holeTouchingTheOutlineInACorner() {
        double[] xy = {0, 0, 4, 0, 4, 4, 0, 4, 2, 1, 1, 2};
        int[][] rings = {{0, 1, 2, 3}, {0, 5, 4}};
        int[] triangles = ConstrainedDelaunay.polygon(xy, rings);
        assertEquals(BigDecimal.valueOf(32 - 3), TriangulationChecks.coveredTwice(xy, triangles));
        TriangulationChecks.assertSegmentsPresent(triangles, TriangulationChecks.segmentsOf(rings));
    }

    /** The way from corner to corner of two squares, which Delaunay would cross. */
    @Test
    void linksAreEdgesThatBoundNothing() {
        double[] xy = {0, 0, 9, 0, 9, 9, 0, 9, 4, 4, 5, 4, 5, 5, 4, 5, 1, 0, 0, 1};
        int[][] rings = {{0, 8, 1, 2, 3, 9}, {4, 5, 6, 7}};
        int[] link = {0, 4};
        int[] triangles = ConstrainedDelaunay.polygon(xy, rings, new int[0], link);
        assertEquals(BigDecimal.valueOf(2 * (81 - 1)), TriangulationChecks.coveredTwice(xy, triangles));
        TriangulationChecks.assertSegmentsPresent(triangles, link);
        assertThrows(AssertionError.class,
                () -> TriangulationChecks.assertSegmentsPresent(ConstrainedDelaunay.polygon(xy, rings), link));
    }

    @Test
    void linksThatCrossAreNumberedAfterTheRings() {
        double[] xy = {0, 0, 2, 0, 2, 2, 0, 2};
        PlanarGraphException crossing = assertThrows(PlanarGraphException.class, () -> ConstrainedDelaunay.polygon(
                xy, new int[][] {{0, 1, 2, 3}}, new int[0], new int[] {0, 2, 1, 3}));
        assertEquals(Kind.CROSSING, crossing.kind());
        assertEquals(5, crossing.first());
        assertEquals(4, crossing.second());
    }

    @ParameterizedTest
    @ValueSource(ints = {2, 3, 10, 60})
    void gridIsCoveredExactly(int side) {
        double[] xy = grid(side);
        int[] triangles = ConstrainedDelaunay.graph(xy, NO_SEGMENTS);
        assertEquals(3 * 2 * (side - 1) * (side - 1), triangles.length);
        assertEquals(BigDecimal.valueOf(2L * (side - 1) * (side - 1)), TriangulationChecks.coveredTwice(xy, triangles));
        TriangulationChecks.assertLocallyDelaunay(xy, triangles, NO_SEGMENTS);
    }

    @Test
    void longSegmentAcrossGridIsKept() {
        int side = 40;
        double[] xy = grid(side);
        // A step of (39, 38) has no common divisor, so no grid point lies on the segment.
        int[] segments = {0, side * (side - 1) - 1};
        int[] triangles = ConstrainedDelaunay.graph(xy, segments);
        TriangulationChecks.assertSegmentsPresent(triangles, segments);
        assertEquals(BigDecimal.valueOf(2L * (side - 1) * (side - 1)), TriangulationChecks.coveredTwice(xy, triangles));
        TriangulationChecks.assertLocallyDelaunay(xy, triangles, segments);
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void bundleOfLongSegmentsThroughRandomPoints(long seed) {
        int lines = 25;
        Random random = new Random(seed);
        double[] xy = Arrays.copyOf(random.doubles(6000).toArray(), 6000 + 4 * lines);
        int[] segments = new int[2 * lines];
        for (int i = 0; i < lines; i++) {
            for (int end = 0; end < 2; end++) {
                int p = 3000 + 2 * i + end;
                xy[2 * p] = -0.1 + 1.2 * end;
                // Squares crowd the lines on one side, so that many segments pass between two points.
                xy[2 * p + 1] = (double) i * i / (lines * lines) + 1e-4 * random.nextDouble();
                segments[2 * i + end] = p;
            }
        }
        int[] triangles = ConstrainedDelaunay.graph(xy, segments);
        TriangulationChecks.coveredTwice(xy, triangles);
        TriangulationChecks.assertSegmentsPresent(triangles, segments);
        TriangulationChecks.assertLocallyDelaunay(xy, triangles, segments);
    }

    @Test
    void cocircularPoints() {
        // Points with integer coordinates on x² + y² = 65² (Pythagorean triples), all on one circle exactly.
        double[] xy = new double[0];
        for (int x = -65; x <= 65; x++) {
            for (int y = -65; y <= 65; y++) {
                if (x * x + y * y == 65 * 65) {
                    xy = Arrays.copyOf(xy, xy.length + 2);
                    xy[xy.length - 2] = x;
                    xy[xy.length - 1] = y;
                }
            }
        }
        int n = xy.length / 2;
        assertEquals(36, n);
        int[] triangles = ConstrainedDelaunay.graph(xy, NO_SEGMENTS);
        assertEquals(3 * (n - 2), triangles.length);
        TriangulationChecks.coveredTwice(xy, triangles);
        TriangulationChecks.assertEmptyCircles(xy, triangles);
    }

    @Test
    void pointsOnOneLine() {
        double[] xy = {0, 0, 1, 1, 2, 2, 3, 3};
        assertEquals(0, ConstrainedDelaunay.graph(xy, NO_SEGMENTS).length);
        assertEquals(Kind.NO_AREA, assertThrows(PlanarGraphException.class,
                () -> ConstrainedDelaunay.polygon(xy, new int[][] {{0, 1, 2, 3}})).kind());
        assertEquals(0, ConstrainedDelaunay.graph(new double[] {0, 0}, NO_SEGMENTS).length);
        assertEquals(0, ConstrainedDelaunay.graph(new double[0], NO_SEGMENTS).length);
    }

    @Test
    void manyCollinearPointsBesideTheLine() {
        int n = 200;
        double[] xy = new double[2 * n + 2];
        for (int i = 0; i < n; i++) {
            xy[2 * i] = i * 7 % n;
        }
        xy[2 * n] = 3.3;
        xy[2 * n + 1] = 1e-9;
        int[] triangles = ConstrainedDelaunay.graph(xy, NO_SEGMENTS);
        assertEquals(3 * (n - 1), triangles.length);
        TriangulationChecks.coveredTwice(xy, triangles);
        TriangulationChecks.assertEmptyCircles(xy, triangles);
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void randomPointsMatchJts(long seed) {
        Random random = new Random(seed);
        double[] xy = random.doubles(600).toArray();
        int[] triangles = ConstrainedDelaunay.graph(xy, NO_SEGMENTS);
        TriangulationChecks.assertEmptyCircles(xy, triangles);
        DelaunayTriangulationBuilder builder = new DelaunayTriangulationBuilder();
        Coordinate[] sites = new Coordinate[xy.length / 2];
        Map<Coordinate, Integer> index = new HashMap<>();
        for (int p = 0; p < sites.length; p++) {
            sites[p] = new Coordinate(xy[2 * p], xy[2 * p + 1]);
            index.put(sites[p], p);
        }
        builder.setSites(Arrays.asList(sites));
        Geometry expected = builder.getTriangles(new GeometryFactory());
        Map<Long, Integer> edges = TriangulationChecks.directedEdges(triangles);
        // JTS frames its points by a finite triangle and so may miss flat hull triangles: compare those it has.
        assertTrue(expected.getNumGeometries() <= triangles.length / 3);
        assertTrue(expected.getNumGeometries() >= triangles.length / 3 - 12);
        for (int i = 0; i < expected.getNumGeometries(); i++) {
            Coordinate[] c = expected.getGeometryN(i).getCoordinates();
            int a = index.get(c[0]);
            int b = index.get(c[1]);
            int d = index.get(c[2]);
            assertTrue(Integer.valueOf(d).equals(edges.get(TriangulationChecks.key(a, b)))
                    || Integer.valueOf(d).equals(edges.get(TriangulationChecks.key(b, a))), "triangle " + i);
        }
    }

    @Test
    void orderOfPointsDoesNotChangeTheTriangulation() {
        double[] xy = new Random(9).doubles(400).toArray();
        double[] reversed = new double[xy.length];
        for (int p = 0; p < 200; p++) {
            reversed[2 * p] = xy[2 * (199 - p)];
            reversed[2 * p + 1] = xy[2 * (199 - p) + 1];
        }
        var edges = TriangulationChecks.directedEdges(ConstrainedDelaunay.graph(xy, NO_SEGMENTS)).keySet();
        int[] renamed = Arrays.stream(ConstrainedDelaunay.graph(reversed, NO_SEGMENTS)).map(v -> 199 - v).toArray();
        assertEquals(edges, TriangulationChecks.directedEdges(renamed).keySet());
        assertArrayEquals(ConstrainedDelaunay.graph(xy, NO_SEGMENTS), ConstrainedDelaunay.graph(xy, NO_SEGMENTS));
    }

    @ParameterizedTest
    @CsvSource({
        "'0 0 2 0 2 2 0 2', '0 2 1 3', CROSSING, 1, 0",
        "'0 0 2 0 1 0 1 1', '0 1', THROUGH_POINT, 0, 2",
        "'0 0 2 2 1 1 0 1', '0 1', THROUGH_POINT, 0, 2",
        "'0 0 2 0 0 0 0 1', '0 1', REPEATED_POINT, 0, 2",
        "'0 0 2 0 1 1', '1 1', NO_LENGTH, 0, -1",
        "'0 0 2 0 NaN 1', '0 1', NOT_FINITE, 2, -1",
    })
    void badGraphNamesTheClash(String points, String segments, Kind kind, int first, int second) {
        double[] xy = Arrays.stream(points.split(" ")).mapToDouble(Double::parseDouble).toArray();
        int[] pairs = Arrays.stream(segments.split(" ")).mapToInt(Integer::parseInt).toArray();
        PlanarGraphException e =
                assertThrows(PlanarGraphException.class, () -> ConstrainedDelaunay.graph(xy, pairs));
        assertEquals(kind, e.kind());
        assertEquals(first, e.first());
        assertEquals(second, e.second());
    }

    @Test
    void ringsThatShareAnEdgeAreRefused() {
        double[] xy = {0, 0, 2, 0, 2, 2, 0, 2, 1, 1};
        PlanarGraphException e = assertThrows(PlanarGraphException.class,
                () -> ConstrainedDelaunay.polygon(xy, new int[][] {{0, 1, 2, 3}, {0, 1, 4}}));
        assertEquals(Kind.REPEATED_SEGMENT, e.kind());
        assertEquals(4, e.first());
        assertEquals(0, e.second());
    }

    @Test
    void annulusOf50kCornersIsQuick() {
        int n = 25_000;
        double[] xy = new double[4 * n];
        int[][] rings = new int[2][n];
        for (int i = 0; i < n; i++) {
            double angle = 2 * Math.PI * i / n;
            double wobble = 1 + 0.01 * Math.sin(40 * angle);
            for (int r = 0; r < 2; r++) {
                xy[2 * (r * n + i)] = (100 - 50 * r) * wobble * Math.cos(angle);
                xy[2 * (r * n + i) + 1] = (100 - 50 * r) * wobble * Math.sin(angle);
                rings[r][i] = r * n + (r == 0 ? i : n - 1 - i);
            }
        }
        long best = Long.MAX_VALUE;
        int[] triangles = null;
        for (int run = 0; run < 3; run++) {
            long start = System.nanoTime();
            triangles = ConstrainedDelaunay.polygon(xy, rings);
            best = Math.min(best, System.nanoTime() - start);
        }
        assertEquals(3 * 2 * n, triangles.length);
        TriangulationChecks.assertSegmentsPresent(triangles, TriangulationChecks.segmentsOf(rings));
        // Far above the tens of milliseconds it needs, so that a busy machine passes and a quadratic slip does not.
        assertTrue(best < 3_000_000_000L, "took " + best / 1e6 + " ms");
    }

    @Test
    void hundredThousandPointsAreQuick() {
        double[] xy = new Random(1).doubles(200_000).toArray();
        long best = Long.MAX_VALUE;
        for (int run = 0; run < 3; run++) {
            long start = System.nanoTime();
            ConstrainedDelaunay.graph(xy, NO_SEGMENTS);
            best = Math.min(best, System.nanoTime() - start);
        }
        assertTrue(best < 3_000_000_000L, "took " + best / 1e6 + " ms");
    }

    private static double[] grid(int side) {
        double[] xy = new double[2 * side * side];
        for (int i = 0; i < side * side; i++) {
            xy[2 * i] = i % side;
            xy[2 * i + 1] = i / side;
        }
        return xy;
    }
}
