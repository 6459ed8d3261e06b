package layupmold.geometry.face;

import java.util.BitSet;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Tells edges at which one surface ends and another begins from edges inside a smooth surface.
 *
 * @param thickness by triangle, mm: of the wall, or what else sets the scale on which an edge counts as rounded
 * @param folds half-edges that turn as sharply as a crease, but belong to a full round of few flats
 */
record Creases(EdgeAngles edges, float[] thickness, BitSet folds) {

    /** Convex turn from which an edge counts as sharp unless it is a round's fold. */
    private static final double SHARP = Math.toRadians(28);
    /** Turn per wall thickness from which a surface is taken to be rounding a rim; a full round has 2, a wall near 0. */
    private static final double ROUND = 1.2;

    /** Share of the full price that a cut along a rim's edge costs. */
    static final double LOW = 0.02;
    private static final double IN_WALL = 0.9;
    private static final double GOOD_PART = 0.1;

    static Creases ofShell(TriangleMesh mesh, EdgeTopology topology, EdgeAngles edges, float[] thickness) {
        return new Creases(edges, thickness, FullRounds.folds(mesh, topology, edges, thickness, SHARP));
    }

    /** Where nothing has a thickness there are no full rounds. */
    static Creases ofSolid(EdgeAngles edges, float[] scale) {
        return new Creases(edges, scale, new BitSet());
    }

    boolean isSharp(int h) {
        return edges.turn()[h] > SHARP && !folds.get(h);
    }

    /** Whether the surface folds inward there. */
    boolean isHollow(int h) {
        return edges.turn()[h] < -SHARP;
    }

    boolean isRounding(int h) {
        return folds.get(h) || edges.curvature()[h] * thickness[h / 3] > ROUND;
    }

    /**
     * Share of the full price for cutting along edge {@code h}: low at convex edges that turn fast for the wall's
     * thickness, full inside walls and at concave edges.
     */
    double cutShare(int h) {
        if (isEnd(h)) {
            return LOW;
        }
        double speed = edges.curvature()[h] * thickness[h / 3];
        double t = (speed - ROUND / 2) / (ROUND / 2);
        return t <= 0 ? 1 : 1 + t * (LOW - 1);
    }

    /** Whether a smooth segment ends at the edge. */
    boolean isEnd(int h) {
        return isSharp(h) || isRounding(h);
    }

    /** Whether an edge lies inside a wall, where no surface ends. */
    boolean isInWall(int h) {
        return cutShare(h) > IN_WALL;
    }

    /** By triangle, whether a good part of its region's border runs through walls; O(n). */
    boolean[] endInWall(EdgeTopology topology, LabelRegions regions) {
        double[] border = new double[regions.count()];
        double[] inWall = new double[regions.count()];
        for (int h = 0; h < topology.halfEdgeCount(); h++) {
            int g = topology.twin(h);
            int r = regions.ofTriangle()[h / 3];
            if (g >= 0 && regions.ofTriangle()[g / 3] != r) {
                border[r] += edges.length(h);
                inWall[r] += isInWall(h) ? edges.length(h) : 0;
            }
        }
        boolean[] ends = new boolean[regions.ofTriangle().length];
        for (int t = 0; t < ends.length; t++) {
            int r = regions.ofTriangle()[t];
            ends[t] = inWall[r] > GOOD_PART * border[r];
        }
        return ends;
    }
}
