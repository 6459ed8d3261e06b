package layupmold.samples.heron;

import layupmold.geometry.shape.Surface;
import org.joml.Vector3d;

/**
 * Elliptic sections across the y axis that change along it, facing +z. Parameter v is the arc length along the ridge
 * (x = 0), u the length along the section measured on a circle of its mean radius, so that both are about millimetres.
 */
final class Loft implements Surface {

    private static final int TABLE = 4000;
    private static final double KEEL_SPREAD_RAD = 0.3;

    private final ControlCurve sections;
    private final double[] arc = new double[TABLE + 1];

    /** @param rows y, height of the section's centre, half width, half height, added height of the keel; mm */
    Loft(double[][] rows) {
        this.sections = new ControlCurve(rows);
        double[] p = new double[5];
        double[] q = new double[5];
        sections.at(0, p);
        for (int i = 1; i <= TABLE; i++) {
            sections.at(sections.end() * i / TABLE, q);
            arc[i] = arc[i - 1] + StrictMath.hypot(q[0] - p[0], q[1] + q[3] + q[4] - p[1] - p[3] - p[4]);
            System.arraycopy(q, 0, p, 0, 5);
        }
    }

    double length() {
        return arc[TABLE];
    }

    @Override
    public Vector3d at(double u, double v) {
        double[] s = section(v);
        double angle = u / radius(s);
        double keel = s[4] * StrictMath.exp(-angle * angle / (KEEL_SPREAD_RAD * KEEL_SPREAD_RAD));
        return new Vector3d(s[2] * StrictMath.sin(angle), s[0], s[1] + s[3] * StrictMath.cos(angle) + keel);
    }

    /** u at an angle from the ridge. */
    double u(double angleDeg, double v) {
        return Math.toRadians(angleDeg) * radius(section(v));
    }

    /** Angle from the ridge, degrees. */
    double angleDeg(double u, double v) {
        return Math.toDegrees(u / radius(section(v)));
    }

    /** Mean radius of the section. */
    double radiusAt(double v) {
        return radius(section(v));
    }

    /** The v whose section lies at {@code y}; sections must run one way along y. */
    double vAtY(double y) {
        double low = 0;
        double high = length();
        boolean falling = section(high)[0] < section(low)[0];
        for (int i = 0; i < 60; i++) {
            double middle = (low + high) / 2;
            if (section(middle)[0] > y == falling) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return low;
    }

    private static double radius(double[] section) {
        return (section[2] + section[3]) / 2;
    }

    private double[] section(double v) {
        int low = 0;
        int high = TABLE;
        while (high - low > 1) {
            int middle = (low + high) >>> 1;
            if (arc[middle] <= v) {
                low = middle;
            } else {
                high = middle;
            }
        }
        double share = (v - arc[low]) / (arc[high] - arc[low]);
        double[] section = new double[5];
        sections.at(sections.end() * (low + share) / TABLE, section);
        return section;
    }
}
