package layupmold.geometry.offset.repair;

import java.util.Arrays;

/**
 * A convex piece of one triangle on its way through the grid's planes.
 *
 * @param vertices corners in order
 * @param tags what edge i (from corner i to the next) lies on: 0, 1 or 2 for an edge of the triangle, or a plane made
 *     by {@link #planeTag}
 */
record CutPolygon(int[] vertices, int[] tags) {

    static int planeTag(int axis, int plane) {
        return -1 - (axis << CellGrid.BITS | plane);
    }

    static boolean isPlane(int tag) {
        return tag < 0;
    }

    static int planeAxis(int tag) {
        return -1 - tag >>> CellGrid.BITS;
    }

    static int planeIndex(int tag) {
        return -1 - tag & (1 << CellGrid.BITS) - 1;
    }

    /** Finds or makes the vertex where an edge of the polygon meets a plane. */
    @FunctionalInterface
    interface Crossing {
        int at(int from, int to, int tag);
    }

    /**
     * The part below (or above) a plane.
     *
     * @param below for each corner whether it lies below
     * @return the part, or null if nothing is there
     */
    CutPolygon part(boolean[] below, boolean wanted, int cutTag, Crossing crossing) {
        int n = vertices.length;
        int[] v = new int[n + 2];
        int[] t = new int[n + 2];
        int size = 0;
        for (int i = 0; i < n; i++) {
            int k = (i + 1) % n;
            boolean here = below[i] == wanted;
            boolean there = below[k] == wanted;
            if (here) {
                v[size] = vertices[i];
                t[size++] = tags[i];
            }
            if (here != there) {
                v[size] = crossing.at(vertices[i], vertices[k], tags[i]);
                // Leaving: the cut itself runs from here to where the polygon is entered again.
                t[size++] = here ? cutTag : tags[i];
            }
        }
        return size < 3 ? null : new CutPolygon(Arrays.copyOf(v, size), Arrays.copyOf(t, size));
    }
}
