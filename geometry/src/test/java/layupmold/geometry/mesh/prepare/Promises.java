package layupmold.geometry.mesh.prepare;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashMap;
import java.util.Map;
import layupmold.geometry.mesh.TriangleMesh;

/** Checks what {@link CleanPart} promises, by counting, without the product's own edge code. */
final class Promises {

    private Promises() {
    }

    static void check(CleanPart part, int postedTriangles) {
        TriangleMesh mesh = part.mesh();
        Map<Long, Integer> directed = new HashMap<>();
        for (int t = 0; t < mesh.triangleCount(); t++) {
            for (int k = 0; k < 3; k++) {
                int a = mesh.triangles()[3 * t + k];
                int b = mesh.triangles()[3 * t + (k + 1) % 3];
                assertTrue(a != b, "triangle " + t + " uses a vertex twice");
                assertEquals(null, directed.put((long) a << 32 | b, t), "edge used twice in one direction");
            }
        }
        long open = directed.keySet().stream().filter(e -> !directed.containsKey(e << 32 | e >>> 32)).count();
        assertEquals(open == 0, part.closed());
        assertEquals(open, part.topology().boundaryCount());
        assertEquals(0, part.topology().nonManifoldCount());
        checkFans(mesh, directed);
        if (part.closed()) {
            assertTrue(mesh.volume() >= 0, "closed but inside out: " + mesh.volume());
        }
        assertEquals(mesh.triangleCount(), part.postedTriangle().length);
        for (int posted : part.postedTriangle()) {
            assertTrue(posted >= -1 && posted < postedTriangles, "posted index " + posted);
        }
    }

    /** At every vertex the triangles must hang together: walking from one over shared edges reaches all. */
    private static void checkFans(TriangleMesh mesh, Map<Long, Integer> directed) {
        int[] around = new int[mesh.vertexCount()];
        int[] some = new int[mesh.vertexCount()];
        for (int i = 0; i < mesh.triangles().length; i++) {
            around[mesh.triangles()[i]]++;
            some[mesh.triangles()[i]] = i / 3;
        }
        for (int v = 0; v < around.length; v++) {
            assertTrue(around[v] > 0, "vertex " + v + " is not used");
            int reached = 1 + walk(mesh, directed, v, some[v], true);
            if (reached <= around[v] && reached > 0) {
                reached += walk(mesh, directed, v, some[v], false);
            }
            // A closed fan is walked round once by the first walk, which then returns to its start.
            assertTrue(reached == around[v] || reached == 2 * around[v] - 1,
                    "vertex " + v + " has " + around[v] + " triangles, a walk reaches " + reached);
        }
    }

    /** Triangles met from {@code start} around {@code v} until the boundary or the start again. */
    private static int walk(TriangleMesh mesh, Map<Long, Integer> directed, int v, int start, boolean forth) {
        int count = 0;
        int t = start;
        while (true) {
            int k = 0;
            while (mesh.triangles()[3 * t + k] != v) {
                k++;
            }
            int a = mesh.triangles()[3 * t + (k + 1) % 3];
            int b = mesh.triangles()[3 * t + (k + 2) % 3];
            Integer next = forth ? directed.get((long) v << 32 | b) : directed.get((long) a << 32 | v);
            if (next == null || next == start) {
                return count;
            }
            count++;
            t = next;
        }
    }
}
