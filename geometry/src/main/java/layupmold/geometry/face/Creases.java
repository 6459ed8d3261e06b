package layupmold.geometry.face;

/** Tells edges at which one surface ends and another begins from edges inside a smooth surface. */
final class Creases {

    /** Convex turn from which an edge counts as sharp; a full round of seven segments or more stays below. */
    static final double SHARP = Math.toRadians(28);
    /** Turn per wall thickness from which a surface is taken to be rounding a rim; a full round has 2, a wall near 0. */
    static final double ROUND = 1.2;

    /** Share of the full price that a cut along a rim's edge costs. */
    static final double LOW = 0.02;

    private Creases() {
    }

    static boolean isSharp(EdgeAngles edges, int h) {
        return edges.turn()[h] > SHARP;
    }

    static boolean isRounding(EdgeAngles edges, int h, double thicknessMm) {
        return edges.curvature()[h] * thicknessMm > ROUND;
    }

    /**
     * Share of the full price for cutting along edge {@code h}: low at convex edges that turn fast for the wall's
     * thickness, full inside walls and at concave edges.
     */
    static double cutShare(EdgeAngles edges, int h, double thicknessMm) {
        if (isSharp(edges, h)) {
            return LOW;
        }
        double speed = edges.curvature()[h] * thicknessMm;
        double t = (speed - ROUND / 2) / (ROUND / 2);
        return t <= 0 ? 1 : t >= 1 ? LOW : 1 + t * (LOW - 1);
    }

    /** Whether a smooth segment ends at the edge. */
    static boolean isEnd(EdgeAngles edges, int h, double thicknessMm) {
        return isSharp(edges, h) || isRounding(edges, h, thicknessMm);
    }
}
