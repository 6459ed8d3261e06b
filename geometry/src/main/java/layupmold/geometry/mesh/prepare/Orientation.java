package layupmold.geometry.mesh.prepare;

import layupmold.geometry.mesh.EdgeTopology;

/**
 * Turns triangles so that neighbours agree, patch by patch; of the two ways a patch can face, the one that more of its
 * area had in the file wins. O(n).
 */
final class Orientation {

    private final Surface surface;
    private final int[] mate;
    private final byte[] state;
    private final int[] queue;
    private int conflicts;
    private int firstConflict = -1;

    private static final byte UNSEEN = 0;
    private static final byte AS_POSTED = 1;
    private static final byte TURNED = 2;

    /**
     * @param surface the same triangles, turned
     * @param turned for each triangle whether it was
     * @param conflicts edges at which a patch cannot agree with itself, as on a strip with one side; now unmated
     * @param conflictTriangle a triangle at such an edge, or -1
     */
    record Oriented(Surface surface, boolean[] turned, int conflicts, int conflictTriangle) {
    }

    private Orientation(Surface surface, int[] mate) {
        this.surface = surface;
        this.mate = mate;
        this.state = new byte[surface.triangleCount()];
        this.queue = new int[surface.triangleCount()];
    }

    /**
     * Orients {@code surface}. {@code mate} (see {@link layupmold.geometry.mesh.EdgeGroups}) is renumbered to the turned
     * triangles in place.
     */
    static Oriented orient(Surface surface, int[] mate) {
        return new Orientation(surface, mate).run();
    }

    private Oriented run() {
        for (int t = 0; t < state.length; t++) {
            if (state[t] == UNSEEN) {
                flood(t);
            }
        }
        boolean[] turned = new boolean[state.length];
        boolean any = false;
        for (int t = 0; t < state.length; t++) {
            turned[t] = state[t] == TURNED;
            any |= turned[t];
        }
        return new Oriented(any ? turn(surface, turned, mate) : surface, turned, conflicts, firstConflict);
    }

    private void flood(int seed) {
        int[] triangles = surface.triangles();
        int head = 0;
        int tail = 0;
        queue[tail++] = seed;
        state[seed] = AS_POSTED;
        double balance = 0;
        while (head < tail) {
            int t = queue[head++];
            balance += state[t] == AS_POSTED ? surface.twiceArea(t) : -surface.twiceArea(t);
            for (int h = 3 * t; h < 3 * t + 3; h++) {
                int g = mate[h];
                if (g < 0) {
                    continue;
                }
                boolean disagree = triangles[h] == triangles[g];
                byte wanted = disagree ? (byte) (AS_POSTED + TURNED - state[t]) : state[t];
                int s = g / 3;
                if (state[s] == UNSEEN) {
                    state[s] = wanted;
                    queue[tail++] = s;
                } else if (state[s] != wanted) {
                    conflicts++;
                    firstConflict = firstConflict < 0 ? t : firstConflict;
                    mate[h] = EdgeTopology.NON_MANIFOLD;
                    mate[g] = EdgeTopology.NON_MANIFOLD;
                }
            }
        }
        if (balance < 0) {
            for (int i = 0; i < tail; i++) {
                state[queue[i]] = (byte) (AS_POSTED + TURNED - state[queue[i]]);
            }
        }
    }

    /** Swaps the last two corners of the triangles to turn, and renumbers their half-edges in {@code mate}. */
    static Surface turn(Surface surface, boolean[] turned, int[] mate) {
        int[] triangles = surface.triangles().clone();
        int[] before = mate.clone();
        for (int t = 0; t < turned.length; t++) {
            if (turned[t]) {
                int swap = triangles[3 * t + 1];
                triangles[3 * t + 1] = triangles[3 * t + 2];
                triangles[3 * t + 2] = swap;
            }
            for (int h = 3 * t; h < 3 * t + 3; h++) {
                int g = before[h];
                mate[renumbered(h, turned)] = g < 0 ? g : renumbered(g, turned);
            }
        }
        return new Surface(surface.xyz(), triangles, surface.posted());
    }

    /** Edges 0, 1, 2 of a turned triangle are its former edges 2, 1, 0. */
    static int renumbered(int h, boolean[] turned) {
        return turned[h / 3] ? h - h % 3 + 2 - h % 3 : h;
    }
}
