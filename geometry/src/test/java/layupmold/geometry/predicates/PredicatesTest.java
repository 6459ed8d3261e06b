package layupmold.geometry.predicates;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.math.BigDecimal;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class PredicatesTest {

    @Test
    void signsFollowTheHandednessConvention() {
        assertEquals(1, Predicates.orient2d(0, 0, 1, 0, 0, 1));
        assertEquals(-1, Predicates.orient2d(0, 0, 0, 1, 1, 0));
        assertEquals(1, Predicates.orient3d(0, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0, -1));
        assertEquals(-1, Predicates.orient3d(0, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0, 1));
        assertEquals(1, Predicates.inCircle(0, 0, 1, 0, 0, 1, 0.9, 0.9));
        assertEquals(-1, Predicates.inCircle(0, 0, 1, 0, 0, 1, 1.1, 1.1));
        assertEquals(0, Predicates.inCircle(0, 0, 1, 0, 1, 1, 0, 1));
    }

    /** Points within a few ulps of a line or plane, where plain doubles get the sign wrong: against BigDecimal. */
    @Test
    void nearlyDegenerateSignsAgreeWithExactArithmetic() {
        SplittableRandom random = new SplittableRandom(7);
        for (int i = 0; i < 20_000; i++) {
            double[] p = new double[12];
            for (int k = 0; k < 12; k++) {
                p[k] = 0.5 + random.nextInt(40) * 0x1p-53 + (k / 3) * 12;
            }
            assertEquals(exactOrient2d(p), Predicates.orient2d(p[0], p[1], p[3], p[4], p[6], p[7]));
            assertEquals(exactOrient3d(p), Predicates.orient3d(p, 0, 3, 6, 9));
        }
    }

    private static int exactOrient2d(double[] p) {
        BigDecimal left = minus(p[0], p[6]).multiply(minus(p[4], p[7]));
        return left.subtract(minus(p[1], p[7]).multiply(minus(p[3], p[6]))).signum();
    }

    private static int exactOrient3d(double[] p) {
        BigDecimal[][] m = new BigDecimal[3][3];
        for (int r = 0; r < 3; r++) {
            for (int k = 0; k < 3; k++) {
                m[r][k] = minus(p[3 * r + k], p[9 + k]);
            }
        }
        BigDecimal det = BigDecimal.ZERO;
        for (int r = 0; r < 3; r++) {
            BigDecimal[] q = m[(r + 1) % 3];
            BigDecimal[] s = m[(r + 2) % 3];
            det = det.add(m[r][2].multiply(q[0].multiply(s[1]).subtract(q[1].multiply(s[0]))));
        }
        return det.signum();
    }

    private static BigDecimal minus(double a, double b) {
        return new BigDecimal(a).subtract(new BigDecimal(b));
    }
}
