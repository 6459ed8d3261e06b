package layupmold.geometry.predicates;

import java.util.Arrays;

/**
 * Exact sums of doubles: an expansion is an array of non-overlapping components, smallest first, zeros removed.
 * Shewchuk, "Adaptive Precision Floating-Point Arithmetic and Fast Robust Geometric Predicates", 1997. Exact as long as
 * no product overflows or underflows.
 */
final class Expansion {

    private static final double[] ZERO = {};

    private Expansion() {
    }

    /** Exact {@code a - b}. */
    static double[] difference(double a, double b) {
        double x = a - b;
        double bVirtual = a - x;
        double tail = (a - (x + bVirtual)) + (bVirtual - b);
        return compact(tail, x);
    }

    /** Exact {@code e + f}. */
    static double[] sum(double[] e, double[] f) {
        double[] h = e;
        for (double component : f) {
            h = grow(h, component);
        }
        return h;
    }

    /** Exact {@code e - f}. */
    static double[] minus(double[] e, double[] f) {
        double[] h = e;
        for (double component : f) {
            h = grow(h, -component);
        }
        return h;
    }

    /** Exact {@code e * f}. */
    static double[] product(double[] e, double[] f) {
        double[] h = ZERO;
        for (double component : f) {
            h = sum(h, scale(e, component));
        }
        return h;
    }

    /** Sign of the exact value: that of its largest component. */
    static int sign(double[] e) {
        return e.length == 0 ? 0 : (int) Math.signum(e[e.length - 1]);
    }

    private static double[] grow(double[] e, double b) {
        double[] h = new double[e.length + 1];
        int size = 0;
        double q = b;
        for (double component : e) {
            double x = q + component;
            double virtual = x - q;
            double tail = (q - (x - virtual)) + (component - virtual);
            if (tail != 0) {
                h[size++] = tail;
            }
            q = x;
        }
        if (q != 0) {
            h[size++] = q;
        }
        return size == h.length ? h : Arrays.copyOf(h, size);
    }

    private static double[] scale(double[] e, double b) {
        double[] h = ZERO;
        for (double component : e) {
            double x = component * b;
            double tail = Math.fma(component, b, -x);
            if (tail != 0) {
                h = grow(h, tail);
            }
            h = grow(h, x);
        }
        return h;
    }

    private static double[] compact(double tail, double head) {
        if (tail != 0) {
            return new double[] {tail, head};
        }
        return head == 0 ? ZERO : new double[] {head};
    }
}
