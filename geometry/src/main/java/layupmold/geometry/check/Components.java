package layupmold.geometry.check;

import layupmold.geometry.mesh.TriangleMesh;

/** Connected pieces of a mesh, triangles being connected where they share a vertex. */
final class Components {

    private Components() {
    }

    /** Number of pieces; union-find with path halving, close to O(n). Unused vertices do not count. */
    static int count(TriangleMesh mesh) {
        int[] triangles = mesh.triangles();
        int[] parent = new int[mesh.vertexCount()];
        boolean[] used = new boolean[parent.length];
        for (int v = 0; v < parent.length; v++) {
            parent[v] = v;
        }
        int pieces = 0;
        for (int t = 0; t < triangles.length; t += 3) {
            for (int k = 0; k < 3; k++) {
                if (!used[triangles[t + k]]) {
                    used[triangles[t + k]] = true;
                    pieces++;
                }
            }
            pieces -= join(parent, triangles[t], triangles[t + 1]);
            pieces -= join(parent, triangles[t], triangles[t + 2]);
        }
        return pieces;
    }

    private static int join(int[] parent, int a, int b) {
        int ra = root(parent, a);
        int rb = root(parent, b);
        if (ra == rb) {
            return 0;
        }
        parent[Math.max(ra, rb)] = Math.min(ra, rb);
        return 1;
    }

    private static int root(int[] parent, int v) {
        int r = v;
        while (parent[r] != r) {
            parent[r] = parent[parent[r]];
            r = parent[r];
        }
        return r;
    }
}
