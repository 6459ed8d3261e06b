package layupmold.geometry.mesh.prepare;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import layupmold.geometry.mesh.EdgeTopology;

/**
 * Closes pin holes: boundary loops too small to be openings, and single missing triangles. A triangle fills a loop of
 * three edges, a fan around the loop's middle any other.
 */
final class PinHoleFiller {

    private static final int MOST_EDGES = 16;
    /** No opening that a laminate can show is smaller around than this (common practice, no source). */
    private static final double PIN_PERIMETER_MM = 3;
    private static final double PIN_SHARE = 0.02;
    /** A missing triangle may be this much of the part's diagonal around. */
    private static final double TRIANGLE_SHARE = 0.1;

    private PinHoleFiller() {
    }

    /** The boundary loops, as half-edges, that are pin holes in a surface of this size. */
    static List<int[]> find(Surface surface, EdgeTopology topology, double diagonalMm) {
        List<int[]> holes = new ArrayList<>();
        if (topology.boundaryCount() > 0) {
            for (int[] loop : topology.boundaryLoops()) {
                if (isPinHole(surface, topology, loop, diagonalMm)) {
                    holes.add(loop);
                }
            }
        }
        return holes;
    }

    /** {@code surface} with the holes filled; new triangles come last, with posted index -1. */
    static Surface fill(Surface surface, EdgeTopology topology, List<int[]> holes) {
        int newTriangles = holes.stream().mapToInt(loop -> loop.length == 3 ? 1 : loop.length).sum();
        int newVertices = (int) holes.stream().filter(loop -> loop.length > 3).count();
        double[] xyz = Arrays.copyOf(surface.xyz(), surface.xyz().length + 3 * newVertices);
        int[] triangles = Arrays.copyOf(surface.triangles(), surface.triangles().length + 3 * newTriangles);
        int[] posted = Arrays.copyOf(surface.posted(), surface.posted().length + newTriangles);
        Arrays.fill(posted, surface.posted().length, posted.length, -1);
        int vertex = surface.vertexCount();
        int at = surface.triangles().length;
        for (int[] loop : holes) {
            if (loop.length == 3) {
                for (int k = 2; k >= 0; k--) {
                    triangles[at++] = topology.from(loop[k]);
                }
                continue;
            }
            for (int h : loop) {
                for (int k = 0; k < 3; k++) {
                    xyz[3 * vertex + k] += surface.xyz()[3 * topology.from(h) + k] / loop.length;
                }
                triangles[at++] = topology.to(h);
                triangles[at++] = topology.from(h);
                triangles[at++] = vertex;
            }
            vertex++;
        }
        return new Surface(xyz, triangles, posted);
    }

    private static boolean isPinHole(Surface surface, EdgeTopology topology, int[] loop, double diagonalMm) {
        if (loop.length > MOST_EDGES) {
            return false;
        }
        double perimeter = perimeter(surface, topology, loop);
        return perimeter <= Math.min(PIN_PERIMETER_MM, PIN_SHARE * diagonalMm)
                || loop.length == 3 && perimeter <= TRIANGLE_SHARE * diagonalMm;
    }

    static double perimeter(Surface surface, EdgeTopology topology, int[] loop) {
        double perimeter = 0;
        for (int h : loop) {
            perimeter += Segments.length(surface.xyz(), topology.from(h), topology.to(h));
        }
        return perimeter;
    }
}
