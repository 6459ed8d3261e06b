package layupmold.geometry.offset.repair;

import com.carrotsearch.hppc.IntArrayList;
import com.carrotsearch.hppc.IntHashSet;
import com.carrotsearch.hppc.IntIntHashMap;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.function.IntPredicate;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;

/** Triangles of a mesh, joined by sides. */
record PleatPiece(BitSet triangles) {

    /**
     * Some triangles and those that share a vertex with them, in pieces. O(n) for n triangles of the mesh.
     *
     * @param may which triangles may belong to a piece
     */
    static List<PleatPiece> around(BitSet some, TriangleMesh mesh, EdgeTopology edges, IntPredicate may) {
        int[] corners = mesh.triangles();
        BitSet vertices = new BitSet();
        some.stream().forEach(t -> {
            for (int k = 0; k < 3; k++) {
                vertices.set(corners[3 * t + k]);
            }
        });
        BitSet wide = new BitSet();
        for (int t = 0; t < mesh.triangleCount(); t++) {
            wide.set(t, may.test(t) && (vertices.get(corners[3 * t]) || vertices.get(corners[3 * t + 1])
                    || vertices.get(corners[3 * t + 2])));
        }
        List<PleatPiece> pieces = new ArrayList<>();
        for (int t = wide.nextSetBit(0); t >= 0; t = wide.nextSetBit(t + 1)) {
            BitSet piece = joinedTo(t, wide, edges);
            wide.andNot(piece);
            pieces.add(new PleatPiece(piece));
        }
        return pieces;
    }

    private static BitSet joinedTo(int first, BitSet among, EdgeTopology edges) {
        BitSet piece = new BitSet();
        piece.set(first);
        IntArrayList found = IntArrayList.from(first);
        for (int i = 0; i < found.size(); i++) {
            for (int h = 3 * found.get(i); h < 3 * found.get(i) + 3; h++) {
                int t = edges.twin(h) < 0 ? -1 : edges.twin(h) / 3;
                if (t >= 0 && among.get(t) && !piece.get(t)) {
                    piece.set(t);
                    found.add(t);
                }
            }
        }
        return piece;
    }

    /** The half-edges around the piece, one after the other; null if it is no disc or lies at the mesh's border. */
    int[] loop(TriangleMesh mesh, EdgeTopology edges) {
        IntIntHashMap leaving = new IntIntHashMap();
        IntHashSet vertices = new IntHashSet();
        int first = -1;
        for (int t = triangles.nextSetBit(0); t >= 0; t = triangles.nextSetBit(t + 1)) {
            for (int h = 3 * t; h < 3 * t + 3; h++) {
                vertices.add(mesh.triangles()[h]);
                if (edges.twin(h) < 0) {
                    return null;
                }
                if (!triangles.get(edges.twin(h) / 3)) {
                    first = h;
                    if (!leaving.putIfAbsent(edges.from(h), h)) {
                        return null;
                    }
                }
            }
        }
        int[] loop = first < 0 ? new int[0] : follow(first, leaving, edges);
        // One loop around it all: Euler's number of a disc.
        int sides = (3 * triangles.cardinality() + leaving.size()) / 2;
        boolean isDisc = loop.length == leaving.size() && vertices.size() - sides + triangles.cardinality() == 1;
        return isDisc ? loop : null;
    }

    private static int[] follow(int first, IntIntHashMap leaving, EdgeTopology edges) {
        IntArrayList loop = new IntArrayList();
        int h = first;
        do {
            loop.add(h);
            h = leaving.get(edges.to(h));
        } while (h != first);
        return loop.toArray();
    }
}
