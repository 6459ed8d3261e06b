package layupmold.geometry.congruence;

import java.util.Arrays;
import org.joml.Vector3d;

/** Vertices in cubes of a grid, for finding the one nearest to a point within a short reach. Built in O(n log n). */
final class VertexGrid {

    private final double[] xyz;
    private final double cell;
    private final Vector3d low;
    private final long[] keys;
    private final int[] vertices;

    /** @param reachMm farthest that {@link #nearest} looks */
    VertexGrid(double[] xyz, double[] bounds, double reachMm) {
        this.xyz = xyz;
        this.low = new Vector3d(bounds[0], bounds[1], bounds[2]);
        double longest = Math.max(bounds[3] - bounds[0], Math.max(bounds[4] - bounds[1], bounds[5] - bounds[2]));
        // Twenty bits an axis, so that three fit a key.
        this.cell = Math.max(2 * reachMm, longest / 1e6);
        int n = xyz.length / 3;
        long[] unsorted = new long[n];
        Arrays.setAll(unsorted, v -> key(cellOf(xyz[3 * v] - low.x), cellOf(xyz[3 * v + 1] - low.y),
                cellOf(xyz[3 * v + 2] - low.z)));
        Integer[] order = new Integer[n];
        Arrays.setAll(order, i -> i);
        Arrays.sort(order, (a, b) -> Long.compare(unsorted[a], unsorted[b]));
        vertices = Arrays.stream(order).mapToInt(Integer::intValue).toArray();
        keys = new long[n];
        Arrays.setAll(keys, i -> unsorted[vertices[i]]);
    }

    private long cellOf(double distance) {
        return (long) Math.floor(distance / cell);
    }

    private static long key(long x, long y, long z) {
        // One cell of margin on the low side, so that neighbours of the first cell have keys too.
        return (x + 1) << 42 | (y + 1) << 21 | z + 1;
    }

    /** The vertex nearest to a point and no farther than {@code within} (at most the grid's reach), or -1. */
    int nearest(Vector3d p, double within) {
        int best = -1;
        double bestSquare = within * within;
        for (long x = cellOf(p.x - within - low.x); x <= cellOf(p.x + within - low.x); x++) {
            for (long y = cellOf(p.y - within - low.y); y <= cellOf(p.y + within - low.y); y++) {
                for (long z = cellOf(p.z - within - low.z); z <= cellOf(p.z + within - low.z); z++) {
                    if (x < -1 || y < -1 || z < -1 || x > 1_100_000 || y > 1_100_000 || z > 1_100_000) {
                        continue;
                    }
                    long key = key(x, y, z);
                    int at = Arrays.binarySearch(keys, key);
                    while (at > 0 && keys[at - 1] == key) {
                        at--;
                    }
                    for (; at >= 0 && at < keys.length && keys[at] == key; at++) {
                        int v = vertices[at];
                        double square = p.distanceSquared(xyz[3 * v], xyz[3 * v + 1], xyz[3 * v + 2]);
                        if (square < bestSquare || square == bestSquare && (best < 0 || v < best)) {
                            best = v;
                            bestSquare = square;
                        }
                    }
                }
            }
        }
        return best;
    }
}
