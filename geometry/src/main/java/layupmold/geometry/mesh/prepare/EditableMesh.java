package layupmold.geometry.mesh.prepare;

import java.util.Arrays;
import java.util.stream.IntStream;
import layupmold.geometry.mesh.EdgeTopology;

/**
 * An oriented manifold surface whose edges can be flipped and collapsed; half-edges are numbered as in
 * {@link EdgeTopology}. Each operation refuses what would not leave a manifold.
 */
final class EditableMesh {

    /** Vertices with more triangles than this are left alone: looking around them again and again would take long. */
    private static final int MOST_SPOKES = 256;

    final double[] xyz;
    final int[] triangles;
    final int[] twin;
    final boolean[] gone;

    /** @param twin partner of each half-edge, or negative on the boundary; both arrays are taken over */
    EditableMesh(double[] xyz, int[] triangles, int[] twin) {
        this.xyz = xyz;
        this.triangles = triangles;
        this.twin = twin;
        this.gone = new boolean[triangles.length / 3];
    }

    int from(int h) {
        return triangles[h];
    }

    int to(int h) {
        return triangles[EdgeTopology.next(h)];
    }

    int apex(int h) {
        return triangles[EdgeTopology.previous(h)];
    }

    /**
     * Replaces the edge of {@code h} by the one between the two opposite corners.
     *
     * @return false, with nothing changed, on the boundary or where that edge is there already
     */
    boolean flip(int h) {
        int g = twin[h];
        if (g < 0 || apex(h) == apex(g) || joined(apex(h), g)) {
            return false;
        }
        int hNext = EdgeTopology.next(h);
        int gNext = EdgeTopology.next(g);
        int hFar = twin[hNext];
        int gFar = twin[gNext];
        int c = apex(h);
        int d = apex(g);
        // Triangle of h: a b c becomes a d c; triangle of g: b a d becomes b c d. Slot h takes the far edge a-d of g.
        triangles[hNext] = d;
        triangles[gNext] = c;
        link(h, gFar);
        link(g, hFar);
        link(hNext, gNext);
        return true;
    }

    private void link(int h, int g) {
        twin[h] = g < 0 ? EdgeTopology.BOUNDARY : g;
        if (g >= 0) {
            twin[g] = h;
        }
    }

    /** True if {@code vertex} is a neighbour of the corner opposite to {@code g}, or that has too many to look at. */
    private boolean joined(int vertex, int g) {
        int[] spokes = spokes(EdgeTopology.previous(g));
        return spokes.length > MOST_SPOKES
                || IntStream.of(spokes).anyMatch(s -> to(s) == vertex || apex(s) == vertex);
    }

    /**
     * Merges the vertex that {@code h} leaves into the one it reaches; its triangles vanish.
     *
     * @return false, with nothing changed, where the result would not be a manifold
     */
    boolean collapse(int h) {
        int g = twin[h];
        int kept = to(h);
        int[] around = spokes(h);
        int[] aroundKept = g >= 0 ? spokes(g) : spokes(EdgeTopology.next(h));
        if (around.length > MOST_SPOKES || aroundKept.length > MOST_SPOKES
                || g >= 0 && isRim(around) && isRim(aroundKept)) {
            return false;
        }
        if (common(around, aroundKept) != (g >= 0 ? 2 : 1) || vanishesWhole(h) || g >= 0 && vanishesWhole(g)) {
            return false;
        }
        for (int spoke : around) {
            triangles[spoke] = kept;
        }
        close(h);
        if (g >= 0) {
            close(g);
        }
        return true;
    }

    /** Takes the triangle of {@code h} away and joins its two other neighbours to each other. */
    private void close(int h) {
        int left = twin[EdgeTopology.next(h)];
        int right = twin[EdgeTopology.previous(h)];
        if (left >= 0) {
            twin[left] = right < 0 ? EdgeTopology.BOUNDARY : right;
        }
        if (right >= 0) {
            twin[right] = left < 0 ? EdgeTopology.BOUNDARY : left;
        }
        gone[h / 3] = true;
    }

    /** True if both other edges of the triangle are boundary or share a triangle: closing it would leave a flap. */
    private boolean vanishesWhole(int h) {
        int left = twin[EdgeTopology.next(h)];
        int right = twin[EdgeTopology.previous(h)];
        return left < 0 && right < 0 || left >= 0 && right >= 0 && left / 3 == right / 3;
    }

    /** Half-edges that leave the vertex that {@code h} leaves, one a triangle; more than {@link #MOST_SPOKES} are cut off. */
    private int[] spokes(int h) {
        int[] spokes = new int[MOST_SPOKES + 1];
        int n = 0;
        int s = h;
        do {
            spokes[n++] = s;
            s = twin[EdgeTopology.previous(s)];
        } while (s >= 0 && s != h && n <= MOST_SPOKES);
        if (s < 0) {
            for (s = twin[h]; s >= 0 && n <= MOST_SPOKES; s = twin[s]) {
                s = EdgeTopology.next(s);
                spokes[n++] = s;
            }
        }
        return Arrays.copyOf(spokes, n);
    }

    /** True if the vertex that {@code h} leaves is on the boundary, or has too many triangles to tell. */
    boolean onRim(int h) {
        int[] spokes = spokes(h);
        return spokes.length > MOST_SPOKES || isRim(spokes);
    }

    private boolean isRim(int[] spokes) {
        for (int s : spokes) {
            if (twin[s] < 0 || twin[EdgeTopology.previous(s)] < 0) {
                return true;
            }
        }
        return false;
    }

    /** How many neighbours two vertices share. */
    private int common(int[] spokes, int[] others) {
        int[] mine = neighbours(spokes);
        int[] theirs = neighbours(others);
        int count = 0;
        for (int i = 0, j = 0; i < mine.length && j < theirs.length;) {
            if (mine[i] == theirs[j]) {
                count++;
                i++;
                j++;
            } else if (mine[i] < theirs[j]) {
                i++;
            } else {
                j++;
            }
        }
        return count;
    }

    private int[] neighbours(int[] spokes) {
        return IntStream.of(spokes).flatMap(s -> IntStream.of(to(s), apex(s))).sorted().distinct().toArray();
    }
}
