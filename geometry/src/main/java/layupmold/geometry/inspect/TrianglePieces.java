package layupmold.geometry.inspect;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.IntPredicate;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.VertexTriangles;

/**
 * Chosen triangles grouped by the vertices they share.
 *
 * @param pieces triangles of each piece, pieces ordered by their first triangle
 * @param pieceOf index of each triangle's piece, or -1
 */
record TrianglePieces(List<int[]> pieces, int[] pieceOf) {

    /** Floods from triangle to triangle; O(triangles). */
    static TrianglePieces of(TriangleMesh mesh, IntPredicate chosen) {
        int n = mesh.triangleCount();
        int[] pieceOf = new int[n];
        Arrays.fill(pieceOf, -1);
        List<int[]> pieces = new ArrayList<>();
        VertexTriangles around = null;
        int[] queue = new int[n];
        for (int first = 0; first < n; first++) {
            if (pieceOf[first] >= 0 || !chosen.test(first)) {
                continue;
            }
            around = around == null ? VertexTriangles.of(mesh) : around;
            int size = 0;
            queue[size++] = first;
            pieceOf[first] = pieces.size();
            for (int i = 0; i < size; i++) {
                for (int corner = 3 * queue[i]; corner < 3 * queue[i] + 3; corner++) {
                    int v = mesh.triangles()[corner];
                    for (int k = around.start(v); k < around.start(v + 1); k++) {
                        int other = around.triangle(k);
                        if (pieceOf[other] < 0 && chosen.test(other)) {
                            pieceOf[other] = pieces.size();
                            queue[size++] = other;
                        }
                    }
                }
            }
            pieces.add(Arrays.copyOf(queue, size));
        }
        return new TrianglePieces(pieces, pieceOf);
    }
}
