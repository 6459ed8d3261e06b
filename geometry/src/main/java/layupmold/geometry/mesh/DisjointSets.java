package layupmold.geometry.mesh;

/** Union-find with path halving; the lower index is the root, so that results do not depend on the order of joins. */
public final class DisjointSets {

    private final int[] parent;

    /** Of the indices below {@code n}, each a set of its own. */
    public DisjointSets(int n) {
        parent = new int[n];
        for (int i = 0; i < n; i++) {
            parent[i] = i;
        }
    }

    /** The lowest index of a set. */
    public int find(int i) {
        int at = i;
        while (parent[at] != at) {
            parent[at] = parent[parent[at]];
            at = parent[at];
        }
        return at;
    }

    public void join(int a, int b) {
        int ra = find(a);
        int rb = find(b);
        if (ra < rb) {
            parent[rb] = ra;
        } else {
            parent[ra] = rb;
        }
    }
}
