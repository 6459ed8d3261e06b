package layupmold.geometry.testparts;

import java.util.List;
import layupmold.geometry.shape.PlanarDomain;
import layupmold.geometry.shape.PointSampler;

/** A rib (or, with both ends the same, a round boss) on the inner wall: a plateau with steep sides. */
record Bump(double u0, double v0, double u1, double v1, double halfWidthMm, double sideMm, double heightMm) {

    private static final double FADE_FROM_LOOP_MM = 6;

    /** Height of the highest bump here, fading out towards the loops. */
    static double highest(List<Bump> bumps, PlanarDomain domain, double u, double v) {
        double highest = 0;
        for (Bump bump : bumps) {
            double beyond = (bump.distance(u, v) - bump.halfWidthMm) / bump.sideMm;
            highest = Math.max(highest, bump.heightMm * (1 - smoothStep(beyond)));
        }
        if (highest == 0) {
            return 0;
        }
        return highest * smoothStep(domain.distanceToLoops(u, v) / FADE_FROM_LOOP_MM - 0.5);
    }

    /** Rows of points along the plateau's edge and the foot, so that the triangles follow the sides. */
    void sample(PointSampler sampler, double spacingMm) {
        double length = Math.hypot(u1 - u0, v1 - v0);
        double step = Math.min(spacingMm, 3 * sideMm);
        for (double d : new double[] {halfWidthMm, halfWidthMm + 0.5 * sideMm, halfWidthMm + sideMm}) {
            double around = 2 * length + 2 * Math.PI * d;
            int count = (int) Math.ceil(around / step);
            for (int i = 0; i < count; i++) {
                double[] p = onContour(around * i / count, d, length);
                sampler.add(p[0], p[1], 0.3 * sideMm);
            }
        }
    }

    private double[] onContour(double s, double d, double length) {
        double angle = length == 0 ? 0 : Math.atan2(v1 - v0, u1 - u0);
        double x;
        double y;
        double cap = Math.PI * d;
        if (s < length) {
            x = s;
            y = -d;
        } else if (s < length + cap) {
            double turn = (s - length) / d - Math.PI / 2;
            x = length + d * Math.cos(turn);
            y = d * Math.sin(turn);
        } else if (s < 2 * length + cap) {
            x = length - (s - length - cap);
            y = d;
        } else {
            double turn = (s - 2 * length - cap) / d + Math.PI / 2;
            x = d * Math.cos(turn);
            y = d * Math.sin(turn);
        }
        return new double[] {
            u0 + x * Math.cos(angle) - y * Math.sin(angle), v0 + x * Math.sin(angle) + y * Math.cos(angle)};
    }

    private double distance(double u, double v) {
        double du = u1 - u0;
        double dv = v1 - v0;
        double square = du * du + dv * dv;
        double t = square == 0 ? 0 : Math.max(0, Math.min(1, ((u - u0) * du + (v - v0) * dv) / square));
        return Math.hypot(u - u0 - t * du, v - v0 - t * dv);
    }

    private static double smoothStep(double x) {
        double t = Math.max(0, Math.min(1, x));
        return t * t * (3 - 2 * t);
    }
}
