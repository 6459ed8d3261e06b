package layupmold.geometry.opening;

import java.util.Arrays;

/**
 * Elimination order for sparse matrices of planar-like graphs by nested dissection (George 1973): halves the vertices
 * by a coordinate, takes those of one half that touch the other as separator, and puts the separator last.
 */
final class DissectionOrder {

    private static final int LEAF = 24;

    private final double[] xyz;
    private final int[] start;
    private final int[] neighbours;
    private final int[] part;
    private final int[] order;
    private int size;
    private int nextPart = 1;

    private DissectionOrder(double[] xyz, int[] start, int[] neighbours) {
        this.xyz = xyz;
        this.start = start;
        this.neighbours = neighbours;
        this.part = new int[start.length - 1];
        this.order = new int[start.length - 1];
    }

    /**
     * @param xyz a position for each vertex
     * @param start neighbours of vertex v are {@code neighbours[start[v]..start[v+1]-1]}
     * @return vertices in the order of elimination
     */
    static int[] of(double[] xyz, int[] start, int[] neighbours) {
        DissectionOrder dissection = new DissectionOrder(xyz, start, neighbours);
        int[] all = new int[start.length - 1];
        Arrays.setAll(all, v -> v);
        dissection.dissect(all);
        return dissection.order;
    }

    private void dissect(int[] vertices) {
        if (vertices.length <= LEAF) {
            append(vertices, vertices.length);
            return;
        }
        int[] sorted = sortedAlongLongestAxis(vertices);
        int half = sorted.length / 2;
        int low = nextPart++;
        int high = nextPart++;
        for (int i = 0; i < sorted.length; i++) {
            part[sorted[i]] = i < half ? low : high;
        }
        int[] upper = new int[sorted.length - half];
        int[] separator = new int[sorted.length - half];
        int uppers = 0;
        int separators = 0;
        for (int i = half; i < sorted.length; i++) {
            if (touches(sorted[i], low)) {
                separator[separators++] = sorted[i];
            } else {
                upper[uppers++] = sorted[i];
            }
        }
        dissect(Arrays.copyOf(sorted, half));
        dissect(Arrays.copyOf(upper, uppers));
        append(separator, separators);
    }

    private boolean touches(int v, int other) {
        for (int i = start[v]; i < start[v + 1]; i++) {
            if (part[neighbours[i]] == other) {
                return true;
            }
        }
        return false;
    }

    private void append(int[] vertices, int count) {
        System.arraycopy(vertices, 0, order, size, count);
        size += count;
    }

    private int[] sortedAlongLongestAxis(int[] vertices) {
        double[] min = new double[3];
        double[] max = new double[3];
        Arrays.fill(min, Double.POSITIVE_INFINITY);
        Arrays.fill(max, Double.NEGATIVE_INFINITY);
        for (int v : vertices) {
            for (int k = 0; k < 3; k++) {
                min[k] = Math.min(min[k], xyz[3 * v + k]);
                max[k] = Math.max(max[k], xyz[3 * v + k]);
            }
        }
        int axis = 0;
        for (int k = 1; k < 3; k++) {
            if (max[k] - min[k] > max[axis] - min[axis]) {
                axis = k;
            }
        }
        double scale = max[axis] > min[axis] ? 1e9 / (max[axis] - min[axis]) : 0;
        long[] keys = new long[vertices.length];
        for (int i = 0; i < keys.length; i++) {
            keys[i] = (long) ((xyz[3 * vertices[i] + axis] - min[axis]) * scale) << 32 | vertices[i];
        }
        Arrays.sort(keys);
        return Arrays.stream(keys).mapToInt(k -> (int) k).toArray();
    }
}
