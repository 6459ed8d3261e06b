package layupmold.geometry.face;

import java.util.Arrays;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * The rounding surface along every part of the labels' boundary that does not run on a sharp edge: the triangles that
 * may still be cut.
 *
 * @param cuttable triangles of the rounding
 * @param perimeter of those, the ones that go around the perimeter, not an opening
 * @param groove triangles of narrow segments with a sharp hollow, anywhere
 * @param between triangles that are not round themselves and lie at sharp edges that part the rounding: a groove's sides
 * @param wallNormal by triangle, three numbers: normal of the kept wall where the rounding begins; zero if unknown
 */
record RimBand(boolean[] cuttable, boolean[] perimeter, float[] wallNormal, boolean[] groove,
        boolean[] between) {

    /** How far the rounding may reach from the labels' boundary: a full round is 1.6 thicknesses from wall to wall. */
    private static final double REACH = 1.9;
    /** Within this many thicknesses of the boundary the way to the rounding may lead over flat triangles. */
    private static final double SLACK = 0.4;
    private static final int SMOOTHING = 3;
    /** Segments with a hollow that are narrower than this many thicknesses are grooves. */
    private static final double GROOVE_WIDTH = 1.5;

    /** O(n + b log b) for b triangles near the boundary. */
    static RimBand of(TriangleMesh mesh, EdgeTopology topology, Creases creases, Segments segments, boolean[] kept) {
        boolean[] rounding = rounding(topology, creases);
        int n = kept.length;
        RimBand band = new RimBand(
                new boolean[n], new boolean[n], new float[3 * n], groove(topology, creases, segments), new boolean[n]);
        band.spread(mesh, topology, creases, kept, rounding);
        band.referToWall(topology, creases, segments, kept, rounding);
        return band;
    }

    /** A band for solids: everything within {@code reachMm} of a smooth boundary. */
    static RimBand ofSolid(TriangleMesh mesh, EdgeTopology topology, Creases creases, boolean[] kept) {
        int n = kept.length;
        boolean[] all = new boolean[n];
        Arrays.fill(all, true);
        RimBand band =
                new RimBand(new boolean[n], new boolean[n], new float[3 * n], new boolean[n], new boolean[n]);
        band.spread(mesh, topology, creases, kept, all);
        return band;
    }

    private static boolean[] rounding(EdgeTopology topology, Creases creases) {
        int n = creases.thickness().length;
        boolean[] rounding = new boolean[n];
        for (int h = 0; h < 3 * n; h++) {
            int g = topology.twin(h);
            if (g >= 0 && !creases.isSharp(h) && creases.isRounding(h)) {
                rounding[h / 3] = true;
                rounding[g / 3] = true;
            }
        }
        boolean[] whole = rounding.clone();
        for (int t = 0; t < n; t++) {
            if (!rounding[t]) {
                whole[t] = completesQuad(topology, creases.edges(), rounding, t) || isSurrounded(topology, rounding, t);
            }
        }
        return whole;
    }

    /** A strip's triangle may touch only the wall's end and its own diagonal: it rounds if its other half does. */
    private static boolean completesQuad(EdgeTopology topology, EdgeAngles edges, boolean[] rounding, int t) {
        int h = longest(edges, t);
        int g = topology.twin(h);
        if (g < 0 || !rounding[g / 3] || longest(edges, g / 3) != g) {
            return false;
        }
        double ratio = edges.areas()[t] / edges.areas()[g / 3];
        return ratio > 0.4 && ratio < 2.5 && Math.abs(edges.turn()[h]) < 0.35 * sharpestTurn(edges, g / 3);
    }

    private static int longest(EdgeAngles edges, int t) {
        int best = 3 * t;
        for (int h = 3 * t + 1; h < 3 * t + 3; h++) {
            if (edges.length(h) > edges.length(best)) {
                best = h;
            }
        }
        return best;
    }

    private static double sharpestTurn(EdgeAngles edges, int t) {
        return Math.max(edges.turn()[3 * t], Math.max(edges.turn()[3 * t + 1], edges.turn()[3 * t + 2]));
    }

    private static boolean isSurrounded(EdgeTopology topology, boolean[] rounding, int t) {
        int count = 0;
        for (int h = 3 * t; h < 3 * t + 3; h++) {
            int g = topology.twin(h);
            if (g >= 0 && rounding[g / 3]) {
                count++;
            }
        }
        return count >= 2;
    }

    private void spread(TriangleMesh mesh, EdgeTopology topology, Creases creases, boolean[] kept, boolean[] rounding) {
        BoundaryPieces pieces = BoundaryPieces.of(mesh, topology, kept);
        int n = kept.length;
        float[] distance = new float[3 * n];
        Arrays.fill(distance, Float.POSITIVE_INFINITY);
        IntQueue queue = new IntQueue();
        for (int h = 0; h < 3 * n; h++) {
            int g = topology.twin(h);
            if (g >= 0 && kept[h / 3] != kept[g / 3] && !creases.isSharp(h)) {
                distance[h] = 0;
                distance[EdgeTopology.next(h)] = 0;
                perimeter[h / 3] = pieces.isPerimeter(topology.from(h));
                queue.add(h);
                queue.add(EdgeTopology.next(h));
            }
        }
        follow(topology, creases, distance, rounding, queue);
        // Where a groove's sharp edges part the rounding, the labels may have run along them.
        for (int h = 0; h < 3 * n; h++) {
            int g = topology.twin(h);
            if (g >= 0 && kept[h / 3] && !kept[g / 3] && creases.isSharp(h) && cuttable[g / 3]
                    && groove[h / 3]) {
                perimeter[h / 3] |= perimeter[g / 3];
                distance[h] = 0;
                distance[EdgeTopology.next(h)] = 0;
                queue.add(h);
                queue.add(EdgeTopology.next(h));
            }
        }
        float[] before = distance.clone();
        follow(topology, creases, distance, rounding, queue);
        for (int h = 0; h < 3 * n; h++) {
            between[h / 3] |= !rounding[h / 3] && distance[h] < before[h];
        }
    }

    private static boolean[] groove(EdgeTopology topology, Creases creases, Segments segments) {
        boolean[] hollow = new boolean[segments.ofTriangle().length];
        for (int h = 0; h < topology.halfEdgeCount(); h++) {
            hollow[segments.ofTriangle()[h / 3]] |= creases.isHollow(h);
        }
        boolean[] groove = new boolean[hollow.length];
        for (int t = 0; t < groove.length; t++) {
            groove[t] = hollow[segments.ofTriangle()[t]] && segments.widthMm()[t] < GROOVE_WIDTH * creases.thickness()[t];
        }
        return groove;
    }

    private void follow(
            EdgeTopology topology, Creases creases, float[] distance, boolean[] rounding, IntQueue queue) {
        float[] thickness = creases.thickness();
        EdgeAngles edges = creases.edges();
        while (!queue.isEmpty()) {
            int h = queue.take();
            int before = EdgeTopology.previous(h);
            reach(EdgeTopology.next(h), h, edges.length(h), distance, thickness, rounding, queue);
            reach(before, h, edges.length(before), distance, thickness, rounding, queue);
            if (topology.twin(h) >= 0 && !creases.isSharp(h)) {
                reach(EdgeTopology.next(topology.twin(h)), h, 0, distance, thickness, rounding, queue);
            }
            if (topology.twin(before) >= 0 && !creases.isSharp(before)) {
                reach(topology.twin(before), h, 0, distance, thickness, rounding, queue);
            }
        }
        for (int h = 0; h < rounding.length * 3; h++) {
            if (rounding[h / 3] && distance[h] < Float.POSITIVE_INFINITY) {
                cuttable[h / 3] = true;
            }
        }
    }

    /** Relaxes the way from one triangle corner to another; corners are named by the half-edge that leaves them. */
    private void reach(int to, int from, double step, float[] distance, float[] thickness, boolean[] rounding,
            IntQueue queue) {
        float d = (float) (distance[from] + step);
        double limit = (rounding[to / 3] ? REACH : SLACK) * thickness[to / 3];
        if (d < distance[to] && d <= limit) {
            distance[to] = d;
            perimeter[to / 3] = perimeter[from / 3];
            queue.add(to);
        }
    }

    /** The sides of a groove that runs out over the rounding stand for it only where no wall does. */
    private void referToWall(
            EdgeTopology topology, Creases creases, Segments segments, boolean[] kept, boolean[] rounding) {
        boolean[] known = new boolean[kept.length];
        for (boolean wall : new boolean[] {true, false}) {
            IntQueue queue = new IntQueue();
            for (int t = 0; t < kept.length; t++) {
                if (kept[t] && !rounding[t] && !known[t] && wall == segments.widthMm()[t] > creases.thickness()[t]
                        && touches(topology, cuttable, t)) {
                    known[t] = true;
                    copyNormal(creases.edges().normals(), t);
                    queue.add(t);
                }
            }
            carryOn(topology, creases, known, queue);
        }
        for (int i = 0; i < SMOOTHING; i++) {
            smooth(topology, known);
        }
    }

    private void carryOn(EdgeTopology topology, Creases creases, boolean[] known, IntQueue queue) {
        while (!queue.isEmpty()) {
            int t = queue.take();
            for (int h = 3 * t; h < 3 * t + 3; h++) {
                int g = topology.twin(h);
                if (g >= 0 && cuttable[g / 3] && !known[g / 3] && !creases.isSharp(h)) {
                    known[g / 3] = true;
                    System.arraycopy(wallNormal, 3 * t, wallNormal, g / 3 * 3, 3);
                    queue.add(g / 3);
                }
            }
        }
    }

    private static boolean touches(EdgeTopology topology, boolean[] set, int t) {
        for (int h = 3 * t; h < 3 * t + 3; h++) {
            int g = topology.twin(h);
            if (g >= 0 && set[g / 3]) {
                return true;
            }
        }
        return false;
    }

    private void copyNormal(double[] normals, int t) {
        for (int k = 0; k < 3; k++) {
            wallNormal[3 * t + k] = (float) normals[3 * t + k];
        }
    }

    private void smooth(EdgeTopology topology, boolean[] known) {
        float[] before = wallNormal.clone();
        for (int t = 0; t < known.length; t++) {
            if (!known[t]) {
                continue;
            }
            for (int h = 3 * t; h < 3 * t + 3; h++) {
                int g = topology.twin(h);
                if (g >= 0 && known[g / 3]) {
                    for (int k = 0; k < 3; k++) {
                        wallNormal[3 * t + k] += before[g / 3 * 3 + k];
                    }
                }
            }
            normalize(t);
        }
    }

    private void normalize(int t) {
        float x = wallNormal[3 * t];
        float y = wallNormal[3 * t + 1];
        float z = wallNormal[3 * t + 2];
        float length = (float) Math.sqrt(x * x + y * y + z * z);
        if (length > 0) {
            for (int k = 0; k < 3; k++) {
                wallNormal[3 * t + k] /= length;
            }
        }
    }
}
