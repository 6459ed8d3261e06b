package layupmold.geometry.simplify;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** Triangles over targets whose distance is elementary geometry. */
class TriangleMissTest {

    private static final double[] FLAT = {0, 0, 0, 10, 0, 0, 0, 10, 0};

    /** A plane z = 0, from which a roof of slope 1 falls away beyond x = 9.8: within 0.2 mm of one corner. */
    @Test
    void seesATargetThatTurnsAwayJustBesideACorner() {
        double[] misses = new double[4];
        new TriangleMiss(new Target() {
            private boolean turned;

            @Override
            public double miss(double x, double y, double z) {
                turned = x > 9.8;
                return turned ? (z + x - 9.8) / Math.sqrt(2) : z;
            }

            @Override
            public double along(double x, double y, double z) {
                return turned ? (x + z) / Math.sqrt(2) : z;
            }
        }).of(FLAT, 0, 1, 2, misses, 0);
        // Nearest to the end of the first side that is looked at is 0.025 mm: a drop of 0.175 at 45 degrees.
        assertEquals(0.175 / Math.sqrt(2), misses[0], 1e-9);
        assertEquals(0, misses[2]);
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
