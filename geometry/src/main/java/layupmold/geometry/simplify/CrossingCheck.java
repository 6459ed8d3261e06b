package layupmold.geometry.simplify;

import java.util.BitSet;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Whether triangles that are to take the place of others would meet anything, while a mesh changes triangle by triangle.
 * Exact. Triangles as given are looked up in a hierarchy, changed ones in hashed grids.
 */
final class CrossingCheck {

    private final HalfEdgeMesh mesh;
    private final TriangleBvh given;
    private final BitSet changed = new BitSet();
    private final BoxGrids moved = new BoxGrids();
    private final double[] low = new double[3];
    private final double[] high = new double[3];

    CrossingCheck(HalfEdgeMesh mesh, TriangleMesh surface) {
        this.mesh = mesh;
        this.given = TriangleBvh.of(surface);
    }

    /** Says that triangle {@code t} is new or has other corners, or corners elsewhere, than before. */
    void change(int t) {
        changed.set(t);
        box(mesh.from(3 * t), mesh.from(3 * t + 1), mesh.from(3 * t + 2));
        moved.add(t, low, high);
    }

    /**
     * Whether triangles meet neither each other nor any of the mesh but those they replace.
     *
     * @param corners three vertices a triangle
     * @param replaced triangles of the mesh
     */
    boolean isFree(int[] corners, int[] replaced) {
        for (int i = 0; i < corners.length; i += 3) {
            for (int j = 0; j < i; j += 3) {
                if (SelfIntersections.meet(mesh.xyz, corners[i], corners[i + 1], corners[i + 2],
                        corners[j], corners[j + 1], corners[j + 2])) {
                    return false;
                }
            }
            if (meetsMesh(corners[i], corners[i + 1], corners[i + 2], replaced)) {
                return false;
            }
        }
        return true;
    }

    private boolean meetsMesh(int a, int b, int c, int[] replaced) {
        box(a, b, c);
        boolean[] met = new boolean[1];
        given.overlapping(low[0], low[1], low[2], high[0], high[1], high[2], t -> {
            met[0] = !changed.get(t) && meets(a, b, c, t, replaced);
            return !met[0];
        });
        return met[0] || moved.anyNear(low, high, t -> meets(a, b, c, t, replaced));
    }

    private boolean meets(int a, int b, int c, int t, int[] replaced) {
        if (mesh.isRemoved(t)) {
            return false;
        }
        for (int r : replaced) {
            if (r == t) {
                return false;
            }
        }
        int p = mesh.from(3 * t);
        int q = mesh.from(3 * t + 1);
        int r = mesh.from(3 * t + 2);
        for (int k = 0; k < 3; k++) {
            if (Math.min(at(p, k), Math.min(at(q, k), at(r, k))) > high[k]
                    || Math.max(at(p, k), Math.max(at(q, k), at(r, k))) < low[k]) {
                return false;
            }
        }
        return SelfIntersections.meet(mesh.xyz, a, b, c, p, q, r);
    }

    private void box(int a, int b, int c) {
        for (int k = 0; k < 3; k++) {
            low[k] = Math.min(at(a, k), Math.min(at(b, k), at(c, k)));
            high[k] = Math.max(at(a, k), Math.max(at(b, k), at(c, k)));
        }
    }

    private double at(int v, int k) {
        return mesh.xyz[3 * v + k];
    }
}
