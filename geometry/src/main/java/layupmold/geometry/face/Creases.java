package layupmold.geometry.face;

import layupmold.geometry.mesh.DisjointSets;
import layupmold.geometry.mesh.EdgeTopology;

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

    /**
     * Area-to-edge width of the smooth segment around each triangle, mm: segments end at sharp and rounding edges. A
     * strip of width w has w, a wall much more than its thickness; O(n α(n)).
     */
    static float[] segmentWidths(EdgeTopology topology, EdgeAngles edges, float[] thickness) {
        int n = thickness.length;
        DisjointSets sets = new DisjointSets(n);
        for (int h = 0; h < 3 * n; h++) {
            int g = topology.twin(h);
            if (g > h && !ends(edges, h, thickness)) {
                sets.join(h / 3, g / 3);
            }
        }
        double[] area = new double[n];
        double[] border = new double[n];
        for (int t = 0; t < n; t++) {
            area[sets.find(t)] += edges.areas()[t];
        }
        for (int h = 0; h < 3 * n; h++) {
            int g = topology.twin(h);
            if (g < 0 || sets.find(h / 3) != sets.find(g / 3)) {
                border[sets.find(h / 3)] += edges.length(h);
            }
        }
        float[] width = new float[n];
        for (int t = 0; t < n; t++) {
            int root = sets.find(t);
            width[t] = (float) (2 * area[root] / Math.max(border[root], 1e-12));
        }
        return width;
    }

    private static boolean ends(EdgeAngles edges, int h, float[] thickness) {
        return isSharp(edges, h) || isRounding(edges, h, thickness[h / 3]);
    }
}
