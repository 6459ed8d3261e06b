package layupmold.geometry.bvh;

import com.carrotsearch.hppc.IntArrayList;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Finds the pairs of triangles that meet by going down a hierarchy with two nodes at a time: boxes that are apart keep
 * all below them apart. For one thread.
 */
final class NodePairs {

    private final double[] xyz;
    private final int[] corners;
    private final TriangleBvh bvh;
    private final int firstLeaf;
    private final int most;
    private final IntArrayList pairs = new IntArrayList();

    /** @param limit pairs after which to stop looking */
    NodePairs(TriangleMesh mesh, TriangleBvh bvh, int limit) {
        this.xyz = mesh.xyz();
        this.corners = mesh.triangles();
        this.bvh = bvh;
        this.firstLeaf = bvh.leafCount - 1;
        this.most = 2 * limit;
    }

    /** Pairs {t, u, …}, t &lt; u, of triangles below the node with each other and with those after them in the order. */
    int[] involving(int node) {
        within(node);
        int above = 0;
        for (int own = node; own > 0; own = (own - 1) / 2, above++) {
            if (own % 2 == 1) {
                below(node, own + 1, above);
            }
        }
        return pairs.toArray();
    }

    private void within(int node) {
        if (node >= firstLeaf) {
            ofLeaves(node, node);
        } else {
            within(2 * node + 1);
            within(2 * node + 2);
            between(2 * node + 1, 2 * node + 2);
        }
    }

    /** Goes {@code levels} down with the other node alone. */
    private void below(int node, int other, int levels) {
        if (levels == 0) {
            between(node, other);
        } else if (bvh.boxesOverlap(node, other)) {
            below(node, 2 * other + 1, levels - 1);
            below(node, 2 * other + 2, levels - 1);
        }
    }

    /** Both nodes are of one level. */
    private void between(int node, int other) {
        if (!bvh.boxesOverlap(node, other) || pairs.size() >= most) {
            return;
        }
        if (node >= firstLeaf) {
            ofLeaves(node, other);
        } else {
            between(2 * node + 1, 2 * other + 1);
            between(2 * node + 1, 2 * other + 2);
            between(2 * node + 2, 2 * other + 1);
            between(2 * node + 2, 2 * other + 2);
        }
    }

    private void ofLeaves(int node, int other) {
        int end = bvh.leafStart(node - firstLeaf + 1);
        int otherStart = bvh.leafStart(other - firstLeaf);
        int otherEnd = bvh.leafStart(other - firstLeaf + 1);
        for (int i = bvh.leafStart(node - firstLeaf); i < end; i++) {
            for (int k = node == other ? i + 1 : otherStart; k < otherEnd && pairs.size() < most; k++) {
                if (!bvh.areApart(i, k) && meet(bvh.order[i], bvh.order[k])) {
                    pairs.add(Math.min(bvh.order[i], bvh.order[k]), Math.max(bvh.order[i], bvh.order[k]));
                }
            }
        }
    }

    private boolean meet(int t, int u) {
        return SelfIntersections.meet(xyz, corners[3 * t], corners[3 * t + 1], corners[3 * t + 2],
                corners[3 * u], corners[3 * u + 1], corners[3 * u + 2]);
    }
}
