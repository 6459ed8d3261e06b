package layupmold.geometry.shape;

import java.util.Arrays;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.operation.buffer.BufferParameters;

/** Makers of closed plane curves as {@code x, y, x, y, …}, counter-clockwise, the first point not repeated. */
public final class Outline {

    /** A point of a closed curve at parameter 0..1, counter-clockwise. */
    @FunctionalInterface
    public interface Curve {
        void at(double parameter, double[] xy);
    }

    private static final int FINE_STEPS = 4096;

    private Outline() {
    }

    /** Samples {@code curve} evenly by arc length, about {@code spacingMm} apart, at least 12 points. */
    public static double[] of(Curve curve, double spacingMm) {
        double[] fine = new double[2 * FINE_STEPS];
        double[] p = new double[2];
        for (int i = 0; i < FINE_STEPS; i++) {
            curve.at((double) i / FINE_STEPS, p);
            fine[2 * i] = p[0];
            fine[2 * i + 1] = p[1];
        }
        return resample(fine, spacingMm);
    }

    /** Axis-parallel ellipse turned by {@code turnDeg}. */
    public static double[] ellipse(
            double centreX, double centreY, double radiusA, double radiusB, double turnDeg, double spacingMm) {
        double cos = StrictMath.cos(Math.toRadians(turnDeg));
        double sin = StrictMath.sin(Math.toRadians(turnDeg));
        return of((s, xy) -> {
            double a = radiusA * StrictMath.cos(2 * Math.PI * s);
            double b = radiusB * StrictMath.sin(2 * Math.PI * s);
            xy[0] = centreX + a * cos - b * sin;
            xy[1] = centreY + a * sin + b * cos;
        }, spacingMm);
    }

    /** The outline of a band of the given half width along an open line, with round ends: a slot, a crescent. */
    public static double[] band(double[] line, double halfWidthMm, double spacingMm) {
        Coordinate[] points = new Coordinate[line.length / 2];
        for (int i = 0; i < points.length; i++) {
            points[i] = new Coordinate(line[2 * i], line[2 * i + 1]);
        }
        BufferParameters round = new BufferParameters(24);
        Geometry band = org.locationtech.jts.operation.buffer.BufferOp.bufferOp(
                new GeometryFactory().createLineString(points), halfWidthMm, round);
        Coordinate[] shell = band.getCoordinates();
        double[] loop = new double[2 * (shell.length - 1)];
        for (int i = 0; i < shell.length - 1; i++) {
            loop[2 * i] = shell[i].x;
            loop[2 * i + 1] = shell[i].y;
        }
        return resample(counterClockwise(loop), spacingMm);
    }

    /**
     * A smooth closed curve through the given points: a uniform cubic B-spline's limit, drawn close to its control
     * polygon, so that it never overshoots.
     */
    public static double[] spline(double[] control, double spacingMm) {
        int n = control.length / 2;
        return of((s, xy) -> {
            double at = s * n;
            int i = (int) Math.floor(at);
            double t = at - i;
            double[] weight = {
                (1 - t) * (1 - t) * (1 - t) / 6,
                (3 * t * t * t - 6 * t * t + 4) / 6,
                (-3 * t * t * t + 3 * t * t + 3 * t + 1) / 6,
                t * t * t / 6};
            xy[0] = 0;
            xy[1] = 0;
            for (int k = 0; k < 4; k++) {
                int p = Math.floorMod(i - 1 + k, n);
                xy[0] += weight[k] * control[2 * p];
                xy[1] += weight[k] * control[2 * p + 1];
            }
        }, spacingMm);
    }

    /**
     * The edge of a region that can be seen whole from one point inside it: along each of 4096 rays the first place,
     * to about a micrometre, where {@code inside} turns zero or negative.
     *
     * @param inside positive inside the region, in steps no finer than 1/256 of the reach
     * @param reachMm how far from the centre the region ends at the most
     */
    public static double[] starShaped(
            double centreX, double centreY, double reachMm, ScalarField inside, double spacingMm) {
        return of((s, xy) -> {
            double dx = StrictMath.cos(2 * Math.PI * s);
            double dy = StrictMath.sin(2 * Math.PI * s);
            double step = reachMm / 256;
            double out = step;
            while (out < reachMm && inside.at(centreX + out * dx, centreY + out * dy) > 0) {
                out += step;
            }
            double in = out - step;
            while (out - in > 1e-6) {
                double middle = (in + out) / 2;
                if (inside.at(centreX + middle * dx, centreY + middle * dy) > 0) {
                    in = middle;
                } else {
                    out = middle;
                }
            }
            xy[0] = centreX + in * dx;
            xy[1] = centreY + in * dy;
        }, spacingMm);
    }

    /** The same closed polyline with points about {@code spacingMm} apart along it. */
    public static double[] resample(double[] loop, double spacingMm) {
        int n = loop.length / 2;
        double[] upTo = new double[n + 1];
        for (int i = 0; i < n; i++) {
            int j = (i + 1) % n;
            upTo[i + 1] = upTo[i] + StrictMath.hypot(loop[2 * j] - loop[2 * i], loop[2 * j + 1] - loop[2 * i + 1]);
        }
        int count = Math.max(12, (int) Math.round(upTo[n] / spacingMm));
        double[] result = new double[2 * count];
        int segment = 0;
        for (int k = 0; k < count; k++) {
            double s = upTo[n] * k / count;
            while (upTo[segment + 1] < s) {
                segment++;
            }
            double span = upTo[segment + 1] - upTo[segment];
            double t = span == 0 ? 0 : (s - upTo[segment]) / span;
            int j = (segment + 1) % n;
            result[2 * k] = loop[2 * segment] + t * (loop[2 * j] - loop[2 * segment]);
            result[2 * k + 1] = loop[2 * segment + 1] + t * (loop[2 * j + 1] - loop[2 * segment + 1]);
        }
        return result;
    }

    /** Twice the signed area. */
    static double twiceArea(double[] loop) {
        double sum = 0;
        int n = loop.length / 2;
        for (int i = 0; i < n; i++) {
            int j = (i + 1) % n;
            sum += loop[2 * i] * loop[2 * j + 1] - loop[2 * j] * loop[2 * i + 1];
        }
        return sum;
    }

    static double[] counterClockwise(double[] loop) {
        return twiceArea(loop) > 0 ? loop : reversed(loop);
    }

    static double[] reversed(double[] loop) {
        double[] out = Arrays.copyOf(loop, loop.length);
        int n = loop.length / 2;
        for (int i = 0; i < n; i++) {
            out[2 * i] = loop[2 * (n - 1 - i)];
            out[2 * i + 1] = loop[2 * (n - 1 - i) + 1];
        }
        return out;
    }
}
