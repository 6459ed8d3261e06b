package layupmold.geometry.offset.repair;

import com.carrotsearch.hppc.IntArrayList;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Takes pleats out of the flange's wall, which copies nothing: where triangles lie all but back to back, as they do
 * where the offset of a fold was contoured in cells larger than it, they and those around give way to a patch that
 * turns least ({@link PleatPatch}). O(n) for each of a few rounds.
 */
public final class WallPleats {

    private static final int ROUNDS = 6;
    private static final int MOST_CORNERS = 120;
    private static final int PAIR_LIMIT = 1000;
    /** An edge that turns by more than 120° is a pleat's. */
    private static final double PLEAT_COSINE = -0.5;
    /** What takes its place turns by no more than 107°. */
    private static final double PATCH_COSINE = -0.3;
    /** Normals of thinner triangles are noise. */
    private static final double FLAT_MM = 1e-4;

    /**
     * @param mesh without unused vertices
     * @param labels region of each triangle
     */
    public record Result(TriangleMesh mesh, int[] labels) {
    }

    private TriangleMesh mesh;
    private int[] labels;
    private EdgeTopology edges;

    private WallPleats(TriangleMesh mesh, int[] labels) {
        this.mesh = mesh;
        this.labels = labels;
        this.edges = EdgeTopology.of(mesh);
    }

    /**
     * @param mesh two-manifold
     * @param labels region of each triangle
     * @return the mesh with other triangles in place of pleats; it crosses itself nowhere that it did not before
     */
    public static Result smooth(TriangleMesh mesh, int[] labels) {
        WallPleats wall = new WallPleats(mesh, labels);
        BitSet pleats = wall.pleats();
        for (int round = 0; round < ROUNDS && !pleats.isEmpty(); round++) {
            pleats = wall.replace(PleatPiece.around(pleats, wall.mesh, wall.edges, wall::isWall));
        }
        return new Result(wall.mesh, wall.labels);
    }

    private BitSet pleats() {
        double[] normals = mesh.unitNormals();
        BitSet pleats = new BitSet();
        for (int h = 0; h < edges.halfEdgeCount(); h++) {
            int t = h / 3;
            int u = edges.twin(h) / 3;
            if (edges.twin(h) > h && isWall(t) && isWall(u) && cosine(normals, t, u) < PLEAT_COSINE && !isFlat(t)
                    && !isFlat(u)) {
                pleats.set(t);
                pleats.set(u);
            }
        }
        return pleats;
    }

    private boolean isWall(int t) {
        return labels[t] == MoldRegion.WALL.ordinal();
    }

    private boolean isFlat(int t) {
        double longest = 0;
        for (int k = 0; k < 3; k++) {
            longest = Math.max(longest, mesh.corner(t, k).distance(mesh.corner(t, (k + 1) % 3)));
        }
        return mesh.areaNormal(t).length() <= FLAT_MM * longest;
    }

    private static double cosine(double[] normals, int t, int u) {
        return normals[3 * t] * normals[3 * u] + normals[3 * t + 1] * normals[3 * u + 1]
                + normals[3 * t + 2] * normals[3 * u + 2];
    }

    /** Puts patches in the place of pieces; the triangles of those that none fits, numbered as they are then. */
    private BitSet replace(List<PleatPiece> pieces) {
        List<int[]> patches = new ArrayList<>();
        for (PleatPiece piece : pieces) {
            int[] loop = piece.loop(mesh, edges);
            patches.add(loop == null || loop.length > MOST_CORNERS ? null
                    : PleatPatch.of(mesh, edges, loop, PATCH_COSINE));
        }
        while (true) {
            Patched patched = patched(pieces, patches);
            int[] pairs = SelfIntersections.findInvolving(patched.mesh, patched.firstNew, PAIR_LIMIT);
            if (pairs.length == 0) {
                mesh = patched.mesh;
                labels = patched.labels;
                edges = EdgeTopology.of(mesh);
                return patched.left;
            }
            for (int t : pairs) {
                if (t >= patched.firstNew) {
                    patches.set(patched.pieces[t - patched.firstNew], null);
                }
            }
        }
    }

    /**
     * @param firstNew the first triangle of a patch
     * @param pieces in whose place each of these is
     * @param left triangles of pieces without a patch
     */
    private record Patched(TriangleMesh mesh, int[] labels, int firstNew, int[] pieces, BitSet left) {
    }

    private Patched patched(List<PleatPiece> pieces, List<int[]> patches) {
        BitSet gone = new BitSet();
        BitSet failed = new BitSet();
        for (int p = 0; p < pieces.size(); p++) {
            (patches.get(p) == null ? failed : gone).or(pieces.get(p).triangles());
        }
        IntArrayList corners = new IntArrayList(mesh.triangles().length);
        IntArrayList regions = new IntArrayList(labels.length);
        BitSet left = new BitSet();
        for (int t = 0; t < labels.length; t++) {
            if (!gone.get(t)) {
                left.set(regions.size(), failed.get(t));
                corners.add(mesh.triangles(), 3 * t, 3);
                regions.add(labels[t]);
            }
        }
        int firstNew = regions.size();
        IntArrayList pieceOf = new IntArrayList();
        for (int p = 0; p < pieces.size(); p++) {
            int[] patch = patches.get(p) == null ? new int[0] : patches.get(p);
            corners.add(patch, 0, patch.length);
            for (int i = 0; i < patch.length; i += 3) {
                regions.add(MoldRegion.WALL.ordinal());
                pieceOf.add(p);
            }
        }
        return new Patched(withoutUnused(mesh.xyz(), corners.toArray()), regions.toArray(), firstNew,
                pieceOf.toArray(), left);
    }

    private static TriangleMesh withoutUnused(double[] xyz, int[] corners) {
        int[] number = new int[xyz.length / 3];
        Arrays.fill(number, -1);
        for (int v : corners) {
            number[v] = v;
        }
        double[] kept = new double[xyz.length];
        int count = 0;
        for (int v = 0; v < number.length; v++) {
            if (number[v] >= 0) {
                System.arraycopy(xyz, 3 * v, kept, 3 * count, 3);
                number[v] = count++;
            }
        }
        int[] renamed = Arrays.stream(corners).map(v -> number[v]).toArray();
        return new TriangleMesh(Arrays.copyOf(kept, 3 * count), renamed);
    }
}
