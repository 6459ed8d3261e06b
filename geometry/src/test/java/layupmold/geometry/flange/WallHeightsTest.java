package layupmold.geometry.flange;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class WallHeightsTest {

    private static final double TOP_MM = 30;

    /** What is even on both sides of a place is, evened out, what it is there. */
    @ParameterizedTest
    @ValueSource(doubles = {1, -1})
    void goesUpStraightFromAFootThatClimbsEvenly(double up) {
        WallHeights heights = new WallHeights(ring(x -> up * x / 4), up, TOP_MM);
        assertEquals(4, heights.steps());
        for (double share = 0; share <= 1; share += 0.25) {
            double base = up * 5 / 4.0;
            assertEquals(base + share * (up * TOP_MM - base), heights.at(5, -53, share), 1e-9);
        }
    }

    /** A step of 20 mm in the foot: beside it as high as the foot, farther away halfway between. */
    @ParameterizedTest
    @ValueSource(doubles = {1, 3, 8})
    void evensOutStepsTheMoreTheFarther(double awayMm) {
        WallHeights heights = new WallHeights(ring(x -> x < 0.5 ? 0 : 20), 1, TOP_MM);
        assertEquals(10, heights.at(0.5, -50 - awayMm, 0), 1e-9);
        double slope = (heights.at(1, -50 - awayMm, 0) - heights.at(0, -50 - awayMm, 0)) / 20;
        assertTrue(slope > 0 && slope < 1.4 / awayMm, awayMm + " mm away it climbs by " + slope);
        assertEquals(0, heights.at(-20, -50 - awayMm, 0), 1e-9);
        assertEquals(20, heights.at(20, -50 - awayMm, 0), 1e-9);
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, 4.9})
    void anEvenFootNeedsNoSteps(double climbMm) {
        assertEquals(1, new WallHeights(ring(x -> climbMm * (x + 50) / 100), 1, TOP_MM).steps());
    }

    /** A square of 100 mm with vertices every millimetre, as high as its x says. */
    private static double[] ring(DoubleUnaryOperator height) {
        double[] xyz = new double[3 * 400];
        for (int i = 0; i < 100; i++) {
            double along = i - 50;
            double[][] sides = {{along, -50}, {50, along}, {-along, 50}, {-50, -along}};
            for (int side = 0; side < 4; side++) {
                int v = 3 * (100 * side + i);
                xyz[v] = sides[side][0];
                xyz[v + 1] = sides[side][1];
                xyz[v + 2] = height.applyAsDouble(xyz[v]);
            }
        }
        return xyz;
    }
}
