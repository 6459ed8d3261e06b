package layupmold.geometry.flange;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import layupmold.geometry.delaunay.ConstrainedDelaunay;
import org.joml.Vector2d;
import org.junit.jupiter.api.Test;

/** The strip between a square of 20 mm and one of 32 mm, with corners every millimetre. */
class RingStripTest {

    private static final int SIDE = 20;
    private static final int OUTER_SIDE = 32;
    private static final int INNER_CORNERS = 4 * SIDE;

    private final int[][] rings = {
        IntStream.range(0, INNER_CORNERS).toArray(),
        IntStream.range(INNER_CORNERS, INNER_CORNERS + 4 * OUTER_SIDE).toArray()};
    private final double[] xy = IntStream.of(SIDE, OUTER_SIDE)
            .mapToObj(RingStripTest::square).flatMapToDouble(Arrays::stream).toArray();

    @Test
    void tipsAreJoinedSoThatNothingIsCutOff() {
        assertEquals(0, cutOff(RingStrip.triangles(xy, rings, 1, tips(SIDE), tips(OUTER_SIDE))));
        assertEquals(24, cutOff(RingStrip.triangles(xy, rings, 1, List.of(), List.of())), "what the test is about");
    }

    /** Another ring lies between a tip and the next: the rings alone can be joined still. */
    @Test
    void aTipWhoseWayIsBlockedIsLeftOut() {
        double[] blocked = Arrays.copyOf(xy, xy.length + 6);
        int n = xy.length / 2;
        System.arraycopy(new double[] {12, 14, 14, 12, 14.5, 14.5}, 0, blocked, xy.length, 6);
        int[][] three = {rings[0], {n, n + 1, n + 2}, rings[1]};
        assertArrayEquals(ConstrainedDelaunay.polygon(blocked, three),
                RingStrip.triangles(blocked, three, 2, tips(SIDE), tips(OUTER_SIDE)));
    }

    /** Triangles all of whose corners lie on the outer square. */
    private static int cutOff(int[] triangles) {
        return (int) IntStream.range(0, triangles.length / 3)
                .filter(t -> IntStream.range(3 * t, 3 * t + 3).allMatch(i -> triangles[i] >= INNER_CORNERS)).count();
    }

    private static List<Vector2d> tips(double side) {
        double half = side / 2;
        return List.of(new Vector2d(-half, -half), new Vector2d(half, -half), new Vector2d(half, half),
                new Vector2d(-half, half));
    }

    private static double[] square(int side) {
        double[] xy = new double[8 * side];
        for (int i = 0; i < 4 * side; i++) {
            double along = i % side - side / 2.0;
            double half = side / 2.0;
            double[] at = switch (i / side) {
                case 0 -> new double[] {along, -half};
                case 1 -> new double[] {half, along};
                case 2 -> new double[] {-along, half};
                default -> new double[] {-half, -along};
            };
            System.arraycopy(at, 0, xy, 2 * i, 2);
        }
        return xy;
    }
}
