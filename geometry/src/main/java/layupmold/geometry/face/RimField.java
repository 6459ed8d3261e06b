package layupmold.geometry.face;

import java.util.Arrays;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;

/** A number at each vertex of a rim's rounding, negative where the face goes on and positive beyond its end. */
final class RimField {

    /** Walls steeper than this against the pull may be parallel to it but for noise: the cut waits for a real turn. */
    private static final double SILHOUETTE_MARGIN = Math.sin(Math.toRadians(2));
    /** On drafted walls the cut comes this much before the silhouette, so that rim strips along the pull stay off. */
    private static final double STRIP_MARGIN = Math.sin(Math.toRadians(1));

    /** Turned this much more than square from its wall, a rounding is on its far side. */
    private static final double FAR_SIDE = Math.sin(Math.toRadians(10));

    /** Straight walls of openings waver about square to the wall: what is this much before counts as beyond the end. */
    static final double NEARLY_SQUARE = Math.sin(Math.toRadians(10));

    private RimField() {
    }

    /**
     * The perimeter ends at the silhouette: where the normal turns past square to the pull; on a wall that already looks
     * back, where the rounding begins. Openings end square to the wall around them. Where a groove's sharp edges part the
     * rounding, the first of its parts to end ends the face.
     *
     * @param pull the pull, or null to end every loop square to its wall
     * @return by vertex; NaN off the band
     */
    static float[] of(TriangleMesh mesh, EdgeTopology topology, Creases creases, RimBand band, Vector3d pull) {
        float[] field = new float[mesh.vertexCount()];
        Arrays.fill(field, Float.NaN);
        boolean[] seen = new boolean[topology.halfEdgeCount()];
        for (int h = 0; h < seen.length; h++) {
            if (band.cuttable()[h / 3] && !seen[h]) {
                double[] sums = new double[7];
                int corner = firstOfSector(topology, creases, band, h);
                do {
                    seen[corner] = true;
                    accumulate(creases.edges(), band, corner, sums, 0);
                    corner = onward(topology, creases, band, corner);
                } while (corner >= 0 && !seen[corner]);
                float value = (float) value(sums, 0, pull);
                int v = topology.from(h);
                field[v] = Float.isNaN(field[v]) ? value : Math.max(field[v], value);
            }
        }
        spread(topology, band, field);
        return field;
    }

    /** Gives the corners of triangles between parts of the rounding the mean of their neighbours'. */
    private static void spread(EdgeTopology topology, RimBand band, float[] field) {
        float[] known = field.clone();
        double[] sum = new double[field.length];
        double[] weight = new double[field.length];
        for (int h = 0; h < topology.halfEdgeCount(); h++) {
            if (band.between()[h / 3]) {
                add(known, sum, weight, topology.from(h), topology.to(h));
                add(known, sum, weight, topology.to(h), topology.from(h));
            }
        }
        for (int v = 0; v < field.length; v++) {
            if (weight[v] > 0) {
                field[v] = (float) (sum[v] / weight[v]);
            }
        }
    }

    private static void add(float[] known, double[] sum, double[] weight, int to, int from) {
        if (Float.isNaN(known[to]) && !Float.isNaN(known[from])) {
            sum[to] += known[from];
            weight[to]++;
        }
    }

    private static boolean isParting(EdgeTopology topology, Creases creases, RimBand band, int h) {
        return (band.groove()[h / 3] || band.groove()[topology.twin(h) / 3])
                && (creases.isSharp(h) || creases.isHollow(h));
    }

    private static int firstOfSector(EdgeTopology topology, Creases creases, RimBand band, int h) {
        int corner = h;
        while (true) {
            int g = topology.twin(corner);
            if (g < 0 || !band.cuttable()[g / 3] || isParting(topology, creases, band, corner)) {
                return corner;
            }
            corner = EdgeTopology.next(g);
            if (corner == h) {
                return h;
            }
        }
    }

    /** The next corner around the same vertex in the same part of the rounding, or -1. */
    private static int onward(EdgeTopology topology, Creases creases, RimBand band, int corner) {
        int side = EdgeTopology.previous(corner);
        int g = topology.twin(side);
        return g >= 0 && band.cuttable()[g / 3] && !isParting(topology, creases, band, side) ? g : -1;
    }

    /**
     * Triangles with a number at each corner: those of the band, and what lies among them without being round itself, as
     * the sides of a groove that runs out over a round.
     */
    static boolean[] known(EdgeTopology topology, float[] field) {
        boolean[] known = new boolean[topology.halfEdgeCount() / 3];
        for (int t = 0; t < known.length; t++) {
            known[t] = !Float.isNaN(field[topology.from(3 * t)]) && !Float.isNaN(field[topology.from(3 * t + 1)])
                    && !Float.isNaN(field[topology.from(3 * t + 2)]);
        }
        return known;
    }

    /** A solid's rounding sides end at the silhouette. */
    static float[] ofSolid(TriangleMesh mesh, EdgeTopology topology, EdgeAngles edges, RimBand band, Vector3d pull) {
        float[] field = new float[mesh.vertexCount()];
        double[] sums = new double[7 * mesh.vertexCount()];
        for (int t = 0; t < band.cuttable().length; t++) {
            if (band.cuttable()[t]) {
                for (int h = 3 * t; h < 3 * t + 3; h++) {
                    accumulate(edges, band, h, sums, 7 * topology.from(h));
                }
            }
        }
        for (int v = 0; v < field.length; v++) {
            int i = 7 * v;
            double length = Math.sqrt(sums[i] * sums[i] + sums[i + 1] * sums[i + 1] + sums[i + 2] * sums[i + 2]);
            field[v] = length == 0 ? Float.NaN
                    : (float) ((sums[i] * pull.x + sums[i + 1] * pull.y + sums[i + 2] * pull.z) / length);
        }
        return field;
    }

    private static void accumulate(EdgeAngles edges, RimBand band, int h, double[] sums, int at) {
        int t = h / 3;
        double angle = cornerAngle(edges, h);
        for (int k = 0; k < 3; k++) {
            sums[at + k] += angle * edges.normals()[3 * t + k];
            sums[at + 3 + k] += angle * band.wallNormal()[3 * t + k];
        }
        sums[at + 6] += band.perimeter()[t] ? angle : -angle;
    }

    /** Angle of the corner that half-edge {@code h} leaves, from the edge lengths. */
    private static double cornerAngle(EdgeAngles edges, int h) {
        double b = edges.length(h);
        double a = edges.length(EdgeTopology.next(h));
        double c = edges.length(EdgeTopology.previous(h));
        double cos = (b * b + c * c - a * a) / (2 * b * c);
        return cos >= -1 && cos <= 1 ? Math.acos(cos) : 0;
    }

    private static double value(double[] sums, int i, Vector3d pull) {
        double n = Math.sqrt(sums[i] * sums[i] + sums[i + 1] * sums[i + 1] + sums[i + 2] * sums[i + 2]);
        if (n == 0) {
            return Double.NaN;
        }
        double w = Math.sqrt(sums[i + 3] * sums[i + 3] + sums[i + 4] * sums[i + 4] + sums[i + 5] * sums[i + 5]);
        double cos = w == 0 ? Double.NaN
                : (sums[i] * sums[i + 3] + sums[i + 1] * sums[i + 4] + sums[i + 2] * sums[i + 5]) / (n * w);
        boolean perimeter = sums[i + 6] > 0;
        if (w > 0 && (pull == null || !perimeter)) {
            return (pull == null ? 0 : NEARLY_SQUARE) - cos;
        }
        if (pull == null) {
            return Double.NaN;
        }
        double draft = (sums[i] * pull.x + sums[i + 1] * pull.y + sums[i + 2] * pull.z) / n;
        double wall = w == 0 ? -1 : (sums[i + 3] * pull.x + sums[i + 4] * pull.y + sums[i + 5] * pull.z) / w;
        double past = pastSilhouette(draft, wall);
        // The far side of a rounding looks the pull's way again.
        return w == 0 || cos >= -FAR_SIDE ? past : Math.max(past, -cos - FAR_SIDE);
    }

    /** Positive where a rounding has turned past the perimeter's end: cosines to the pull of it and of its wall. */
    static double pastSilhouette(double along, double wallAlong) {
        return along - Math.max(-STRIP_MARGIN, wallAlong + SILHOUETTE_MARGIN);
    }
}
