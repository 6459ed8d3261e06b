package layupmold.geometry.face;

/** Union-find with path halving; the lower index is the root, so that results do not depend on the order of joins. */
final class DisjointSets {

    private final int[] parent;

    DisjointSets(int n) {
        parent = new int[n];
        for (int i = 0; i < n; i++) {
            parent[i] = i;
        }
    }

    int find(int i) {
        int at = i;
        while (parent[at] != at) {
            parent[at] = parent[parent[at]];
            at = parent[at];
        }
        return at;
    }

    void join(int a, int b) {
        int ra = find(a);
        int rb = find(b);
        if (ra < rb) {
            parent[rb] = ra;
        } else {
            parent[ra] = rb;
        }
    }
}
