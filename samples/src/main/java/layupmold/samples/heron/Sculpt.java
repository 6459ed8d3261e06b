package layupmold.samples.heron;

import layupmold.geometry.shape.ScalarField;
import layupmold.geometry.shape.Surface;
import org.joml.Vector3d;

/** Smooth swells and hollows for larger forms: brows, sockets, crests. */
final class Sculpt {

    private Sculpt() {
    }

    /** {@code base} moved along its normal by {@code swellMm}. */
    static Surface of(Surface base, ScalarField swellMm) {
        return (u, v) -> {
            Vector3d p = base.at(u, v);
            double swell = swellMm.at(u, v);
            return Math.abs(swell) < 1e-9 ? p : p.fma(swell, base.normal(u, v));
        };
    }

    /** A Gaussian swell around a polyline {@code u, v, …}, fading over about {@code spreadMm}. */
    static ScalarField along(double[] line, double heightMm, double spreadMm) {
        return (u, v) -> {
            double square = Double.MAX_VALUE;
            for (int i = 0; i + 3 < line.length; i += 2) {
                square = Math.min(square, squareDistance(line, i, u, v));
            }
            return heightMm * StrictMath.exp(-square / (spreadMm * spreadMm));
        };
    }

    /** A Gaussian swell around a point. */
    static ScalarField at(double u0, double v0, double heightMm, double spreadU, double spreadV) {
        return (u, v) -> {
            double a = (u - u0) / spreadU;
            double b = (v - v0) / spreadV;
            return heightMm * StrictMath.exp(-a * a - b * b);
        };
    }

    /** The lesser of two values, rounded over {@code blend}: joins two edges by a smooth corner. */
    static double softMin(double a, double b, double blend) {
        double h = Math.max(blend - Math.abs(a - b), 0) / blend;
        return Math.min(a, b) - h * h * h * blend / 6;
    }

    /** 0 below {@code from}, 1 above {@code to}, smooth between. */
    static double smoothStep(double from, double to, double x) {
        double t = Math.max(0, Math.min(1, (x - from) / (to - from)));
        return t * t * (3 - 2 * t);
    }

    private static double squareDistance(double[] line, int i, double u, double v) {
        double du = line[i + 2] - line[i];
        double dv = line[i + 3] - line[i + 1];
        double t = ((u - line[i]) * du + (v - line[i + 1]) * dv) / (du * du + dv * dv);
        t = Math.max(0, Math.min(1, t));
        double a = u - line[i] - t * du;
        double b = v - line[i + 1] - t * dv;
        return a * a + b * b;
    }
}
