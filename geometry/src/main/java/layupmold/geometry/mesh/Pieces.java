package layupmold.geometry.mesh;


import java.util.Arrays;
import java.util.stream.IntStream;

/**
 * Connected pieces of a mesh, triangles being connected where they share a vertex; union-find with path halving, close
 * to O(n). Unused vertices do not count.
 */
public final class Pieces {

    private final DisjointSets sets;

    private Pieces(TriangleMesh mesh) {
        int[] triangles = mesh.triangles();
        sets = new DisjointSets(mesh.vertexCount());
        for (int t = 0; t < triangles.length; t += 3) {
            sets.join(triangles[t], triangles[t + 1]);
            sets.join(triangles[t], triangles[t + 2]);
        }
    }

    /** Number of pieces. */
    public static int count(TriangleMesh mesh) {
        Pieces pieces = new Pieces(mesh);
        return (int) Arrays.stream(mesh.triangles()).map(pieces.sets::find).distinct().count();
    }

    /** The triangles of the piece that has the most, ascending; of equals the one with the lowest vertex. */
    public static int[] largest(TriangleMesh mesh) {
        Pieces pieces = new Pieces(mesh);
        int[] size = new int[mesh.vertexCount()];
        int best = 0;
        for (int t = 0; t < mesh.triangleCount(); t++) {
            size[pieces.sets.find(mesh.triangles()[3 * t])]++;
        }
        for (int v = 0; v < size.length; v++) {
            best = size[v] > size[best] ? v : best;
        }
        int main = best;
        return IntStream.range(0, mesh.triangleCount())
                .filter(t -> pieces.sets.find(mesh.triangles()[3 * t]) == main).toArray();
    }
}
