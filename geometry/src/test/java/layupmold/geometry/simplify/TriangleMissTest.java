package layupmold.geometry.simplify;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

/** Triangles over targets whose distance is elementary geometry. */
class TriangleMissTest {

    private static final double[] FLAT = {0, 0, 0, 10, 0, 0, 0, 10, 0};

    /** Beyond x = 9.8, nearest to the end of the first side that is looked at is 0.025 mm: a drop of 0.175 at 45 degrees. */
    private static final double DROP_MM = 0.175 / Math.sqrt(2);

    /** A plane z = 0, from which a roof of slope 1 falls away beyond an x. */
    private static final class FallingAway implements Target {
        private final double beyond;
        private boolean turned;

        FallingAway(double beyond) {
            this.beyond = beyond;
        }

        @Override
        public double miss(double x, double y, double z) {
            turned = x > beyond;
            return turned ? (z + x - beyond) / Math.sqrt(2) : z;
        }

        @Override
        public double along(double x, double y, double z) {
            return turned ? (x + z) / Math.sqrt(2) : z;
        }
    }

    @Test
    void seesATargetThatTurnsAwayJustBesideACorner() {
        double[] misses = new double[4];
        new TriangleMiss(new FallingAway(9.8)).of(FLAT, 0, 1, 2, misses, 0);
        assertEquals(DROP_MM, misses[0], 1e-9);
        assertEquals(0, misses[2]);
    }

    @Test
    void theWorstIsTheGreatestUnlessLessIsEnough() {
        TriangleMiss miss = new TriangleMiss(new FallingAway(3));
        double[] misses = new double[4];
        miss.of(FLAT, 0, 1, 2, misses, 0);
        double worst = Arrays.stream(misses).max().orElseThrow();
        assertEquals(worst, miss.worst(FLAT, 0, 1, 2, Double.POSITIVE_INFINITY));
        assertEquals(worst, miss.worst(FLAT, 0, 1, 2, worst));
        double enough = miss.worst(FLAT, 0, 1, 2, 0.01);
        assertTrue(enough > 0.01 && enough < worst, enough + " mm");
    }

    @Test
    void tellsWhereItMissesMost() {
        Target target = new FallingAway(9.8);
        TriangleMiss miss = new TriangleMiss(target);
        double worst = miss.worst(FLAT, 0, 1, 2, Double.POSITIVE_INFINITY);
        double[] place = miss.worstPlace();
        assertTrue(Math.abs(target.miss(place[0], place[1], place[2])) >= worst, "less than " + worst);
        assertTrue(place[0] > 9.8, "at " + place[0]);
    }

    @Test
    void aTriangleInItsTargetMissesNothing() {
        double[] misses = {1, 1, 1, 1};
        new TriangleMiss(new Plane()).of(FLAT, 0, 1, 2, misses, 0);
        for (double miss : misses) {
            assertEquals(0, miss);
        }
    }
}
