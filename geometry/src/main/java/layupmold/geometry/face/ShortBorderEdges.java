package layupmold.geometry.face;

import java.util.Arrays;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;

/**
 * Takes corners out of a face's borders that stand too near to the next to matter. Holes cut by boolean operations and
 * borders cut through triangles have edges of micrometres beside such of a millimetre; caps and marks that are as dense
 * as their border would fold there.
 */
final class ShortBorderEdges {

    /** An edge is short if it has less than this share of its loop's mean. */
    private static final double SHORT = 0.25;
    private static final int PASSES = 6;
    private static final int FEWEST = 8;
    /** Least cosine between a triangle's normal before and after. */
    private static final double LEAST_COS = 0.7;

    private final FaceMesh face;
    private final double toleranceMm;
    private final boolean[] locked;
    private final int[] becomes;
    private final boolean[] gone;
    private final int[] leaving;
    private int count;

    private ShortBorderEdges(FaceMesh face, double toleranceMm) {
        this.face = face;
        this.toleranceMm = toleranceMm;
        this.locked = new boolean[face.mesh().vertexCount()];
        this.becomes = new int[locked.length];
        Arrays.setAll(becomes, v -> v);
        this.gone = new boolean[face.mesh().triangleCount()];
        this.leaving = topology().leaving(locked.length);
    }

    /**
     * O(n) a pass.
     *
     * @param toleranceMm how far a corner that is taken out may lie beside the border without it
     */
    static FaceMesh without(FaceMesh face, double toleranceMm) {
        FaceMesh left = face;
        for (int pass = 0; pass < PASSES; pass++) {
            ShortBorderEdges edges = new ShortBorderEdges(left, toleranceMm);
            left.topology().boundaryLoops().forEach(edges::collapse);
            if (edges.count == 0) {
                return left;
            }
            left = edges.rest();
        }
        return left;
    }

    private void collapse(int[] loop) {
        int n = loop.length;
        double most = SHORT * FaceLoops.length(face.mesh(), face.topology(), loop) / n;
        for (int i = 0; i < n && n > FEWEST; i++) {
            int before = loop[(i + n - 1) % n];
            int h = loop[i];
            if (corner(h).distance(end(h)) >= most) {
                continue;
            }
            // Either end may go: the one that is missed less.
            double first = beside(corner(h), corner(before), end(h));
            double second = beside(end(h), corner(h), end(loop[(i + 1) % n]));
            if (first <= second && first <= toleranceMm) {
                merge(h, before, topology().from(h), topology().to(h));
            } else if (second <= toleranceMm) {
                merge(h, h, topology().to(h), topology().from(h));
            }
        }
    }

    private EdgeTopology topology() {
        return face.topology();
    }

    private Vector3d corner(int h) {
        return face.mesh().vertex(topology().from(h));
    }

    private Vector3d end(int h) {
        return face.mesh().vertex(topology().to(h));
    }

    /** Distance of a point from the segment between two others, mm. */
    private static double beside(Vector3d p, Vector3d a, Vector3d b) {
        Vector3d way = b.sub(a, new Vector3d());
        double share = way.lengthSquared() > 0 ? p.sub(a, new Vector3d()).dot(way) / way.lengthSquared() : 0;
        return p.distance(a.fma(Math.max(0, Math.min(1, share)), way, new Vector3d()));
    }

    /**
     * Moves vertex {@code out} into {@code into} if nothing turns over and the border stays one curve.
     *
     * @param edge the border's half-edge between them
     * @param arriving the border's half-edge that ends in {@code out}
     */
    private void merge(int edge, int arriving, int out, int into) {
        if (topology().twin(EdgeTopology.next(edge)) < 0 || topology().twin(EdgeTopology.previous(edge)) < 0) {
            return;
        }
        int apex = topology().from(EdgeTopology.previous(edge));
        Vector3d target = face.mesh().vertex(into);
        // Around the vertex that goes, from the border's half-edge that arrives to the one that leaves.
        for (int h = arriving; h >= 0; h = topology().twin(EdgeTopology.next(h))) {
            int next = topology().to(EdgeTopology.next(h));
            if (locked[out] || isInTheWay(topology().from(h), into, apex) || isInTheWay(next, into, apex)
                    || h / 3 != edge / 3 && turnsOver(h / 3, out, target)) {
                return;
            }
        }
        for (int h = arriving; h >= 0; h = topology().twin(EdgeTopology.next(h))) {
            locked[topology().from(h)] = true;
            locked[topology().to(EdgeTopology.next(h))] = true;
        }
        locked[out] = true;
        becomes[out] = into;
        gone[edge / 3] = true;
        count++;
    }

    private boolean isInTheWay(int neighbour, int into, int apex) {
        return locked[neighbour] || neighbour != into && neighbour != apex && isJoined(neighbour, into);
    }

    private boolean turnsOver(int t, int out, Vector3d target) {
        Vector3d[] p = new Vector3d[3];
        for (int k = 0; k < 3; k++) {
            p[k] = face.mesh().triangles()[3 * t + k] == out ? target : face.mesh().corner(t, k);
        }
        Vector3d after = p[1].sub(p[0], new Vector3d()).cross(p[2].sub(p[0], new Vector3d()));
        Vector3d before = face.mesh().areaNormal(t);
        return !(after.dot(before) > LEAST_COS * after.length() * before.length());
    }

    private boolean isJoined(int a, int b) {
        int start = leaving[a];
        int h = start;
        do {
            if (topology().to(h) == b || topology().from(EdgeTopology.previous(h)) == b) {
                return true;
            }
            h = topology().twin(EdgeTopology.previous(h));
        } while (h >= 0 && h != start);
        return false;
    }

    private FaceMesh rest() {
        int n = gone.length;
        int[] triangles = new int[3 * (n - count)];
        int[] source = new int[n - count];
        int size = 0;
        for (int t = 0; t < n; t++) {
            if (!gone[t]) {
                for (int k = 0; k < 3; k++) {
                    triangles[3 * size + k] = becomes[face.mesh().triangles()[3 * t + k]];
                }
                source[size++] = face.source()[t];
            }
        }
        return FaceMesh.of(new TriangleMesh(face.mesh().xyz(), triangles), source);
    }
}
