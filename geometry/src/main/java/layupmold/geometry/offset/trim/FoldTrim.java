package layupmold.geometry.offset.trim;

import com.carrotsearch.hppc.DoubleArrayList;
import com.carrotsearch.hppc.IntArrayList;
import java.util.Arrays;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Cuts the folds off a moved surface: where creases are tighter than the offset the moved triangles turn over and run
 * through each other, and what lies nearer than the offset is no part of the offset surface.
 *
 * <p>Triangles that turned over are left out; the rest is cut along all its crossings ({@link Arrangement}). Pieces
 * joined other than across a crossing form regions, and a region stays as a whole or goes as a whole, by its distance
 * ({@link Regions}). Concave creases come out as sharp as they are, in triangles of the face's own size. Compare Jung,
 * Shin and Choi, "Self-intersection removal in triangular mesh offsetting", 2004. What cannot be decided is left
 * to the caller, to take another way. O(n log n) in triangles and crossings.
 */
public final class FoldTrim {

    /** Vertices are moved by up to this before they are looked at, so that no vertex lies on another's plane. */
    private static final double JITTER_MM = 0x1p-17;

    /**
     * @param mesh the surface that is left, without unused vertices; those given lie where they did, those on crossings
     *     anywhere
     * @param source for each triangle the given one it is a part of
     * @param given for each vertex the given one, or -1
     * @param defects ends of edges that do not join two triangles, but for the given boundary's; six numbers an edge
     */
    public record Result(TriangleMesh mesh, int[] source, int[] given, double[] defects) {
    }

    private FoldTrim() {
    }

    /**
     * @param moved the surface with its folds; its boundary stays clear of them
     * @param turned which of its triangles are not part of the offset surface for sure
     * @param distance tells how far a point misses the offset
     * @return null if crossings were too entangled to tell
     */
    public static Result trim(TriangleMesh moved, boolean[] turned, Miss.Source distance) {
        int[] alive = indices(turned);
        TriangleMesh shaken = new TriangleMesh(shake(moved.xyz()), trianglesOf(moved, alive));
        Arrangement arrangement;
        CutTriangles cut;
        try {
            arrangement = Arrangement.of(shaken);
            cut = CutTriangles.of(arrangement);
        } catch (TrimException e) {
            return null;
        }
        double[] xyz = arrangement.xyz.toArray();
        System.arraycopy(moved.xyz(), 0, xyz, 0, moved.xyz().length);
        boolean[] onOutline = EdgeTopology.of(moved).borderVertices(moved.vertexCount());
        boolean[] kept = Regions.kept(cut, xyz, node -> node < onOutline.length && onOutline[node], distance);
        IntArrayList sources = new IntArrayList();
        IntArrayList given = new IntArrayList();
        TriangleMesh open = assemble(cut, kept, xyz, moved.vertexCount(), given, sources);
        int[] origin = given.toArray();
        TriangleMesh closed = SmallHoles.close(open, v -> isOutline(v, origin, onOutline), sources);
        int[] source = Arrays.stream(sources.toArray()).map(t -> alive[t]).toArray();
        return new Result(closed, source, origin, defects(closed, origin, onOutline));
    }

    private static boolean isOutline(int vertex, int[] given, boolean[] onOutline) {
        return given[vertex] >= 0 && onOutline[given[vertex]];
    }

    private static double[] defects(TriangleMesh mesh, int[] given, boolean[] onOutline) {
        EdgeTopology topology = EdgeTopology.of(mesh);
        DoubleArrayList ends = new DoubleArrayList();
        for (int h = 0; h < topology.halfEdgeCount(); h++) {
            int a = topology.from(h);
            int b = topology.to(h);
            boolean outline = topology.twin(h) == EdgeTopology.BOUNDARY
                    && isOutline(a, given, onOutline) && isOutline(b, given, onOutline);
            if (topology.twin(h) < 0 && !outline) {
                ends.add(mesh.xyz(), 3 * a, 3);
                ends.add(mesh.xyz(), 3 * b, 3);
            }
        }
        for (int v : topology.nonManifoldVertices(mesh.vertexCount())) {
            ends.add(mesh.xyz(), 3 * v, 3);
            ends.add(mesh.xyz(), 3 * v, 3);
        }
        return ends.toArray();
    }

    private static int[] indices(boolean[] turned) {
        IntArrayList alive = new IntArrayList();
        for (int t = 0; t < turned.length; t++) {
            if (!turned[t]) {
                alive.add(t);
            }
        }
        return alive.toArray();
    }

    private static int[] trianglesOf(TriangleMesh mesh, int[] chosen) {
        int[] corners = new int[3 * chosen.length];
        for (int i = 0; i < chosen.length; i++) {
            System.arraycopy(mesh.triangles(), 3 * chosen[i], corners, 3 * i, 3);
        }
        return corners;
    }

    private static double[] shake(double[] xyz) {
        double[] shaken = new double[xyz.length];
        for (int i = 0; i < xyz.length; i++) {
            long z = (i + 1) * 0x9E3779B97F4A7C15L;
            z = (z ^ z >>> 30) * 0xBF58476D1CE4E5B9L;
            z = (z ^ z >>> 27) * 0x94D049BB133111EBL;
            // 16 bits of noise in steps that a double holds beside any coordinate.
            shaken[i] = xyz[i] + JITTER_MM * ((z >>> 48) - 32768) / 32768;
        }
        return shaken;
    }

    /**
     * The pieces that stay, as a mesh.
     *
     * @param given receives for each vertex the given one, or -1
     * @param sources receives for each triangle the one that was cut
     */
    private static TriangleMesh assemble(CutTriangles cut, boolean[] kept, double[] xyz, int givenCount,
            IntArrayList given, IntArrayList sources) {
        int[] index = new int[xyz.length / 3];
        Arrays.fill(index, -1);
        IntArrayList triangles = new IntArrayList();
        DoubleArrayList left = new DoubleArrayList();
        for (int p = 0; p < kept.length; p++) {
            for (int k = 0; k < 3 && kept[p]; k++) {
                int node = cut.pieces.get(3 * p + k);
                if (index[node] < 0) {
                    index[node] = given.size();
                    given.add(node < givenCount ? node : -1);
                    left.add(xyz, 3 * node, 3);
                }
                triangles.add(index[node]);
            }
            if (kept[p]) {
                sources.add(cut.sources.get(p));
            }
        }
        return new TriangleMesh(left.toArray(), triangles.toArray());
    }
}
