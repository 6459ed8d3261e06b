package layupmold.geometry.mesh;

import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;

/** The part of a mesh where a value given at its vertices is at most zero; triangles are split along the level. */
public final class LevelClip {

    private final TriangleMesh mesh;
    private final double[] value;
    private final Map<Long, Integer> cuts = new HashMap<>();
    private double[] xyz;
    private int vertices;
    private int[] triangles;
    private int[] source;
    private int size;

    /**
     * @param mesh without vertices that no triangle uses
     * @param source triangle of the given mesh that each triangle is a piece of
     */
    public record Part(TriangleMesh mesh, int[] source) {
    }

    private LevelClip(TriangleMesh mesh, double[] value) {
        this.mesh = mesh;
        this.value = value;
        this.vertices = mesh.vertexCount();
        this.xyz = mesh.xyz().clone();
        this.triangles = new int[mesh.triangles().length + 64];
        this.source = new int[triangles.length / 3];
    }

    /**
     * O(n).
     *
     * @param value one a vertex; exactly zero counts as inside and is not cut beside
     */
    public static Part atMostZero(TriangleMesh mesh, double[] value) {
        LevelClip clip = new LevelClip(mesh, value);
        for (int t = 0; t < mesh.triangleCount(); t++) {
            clip.add(t);
        }
        return new Part(compact(clip.xyz, Arrays.copyOf(clip.triangles, 3 * clip.size)),
                Arrays.copyOf(clip.source, clip.size));
    }

    private void add(int t) {
        int[] ring = new int[4];
        int corners = 0;
        for (int k = 0; k < 3; k++) {
            int a = mesh.triangles()[3 * t + k];
            int b = mesh.triangles()[3 * t + (k + 1) % 3];
            if (value[a] <= 0) {
                ring[corners++] = a;
            }
            if (value[a] < 0 && value[b] > 0 || value[a] > 0 && value[b] < 0) {
                ring[corners++] = cut(Math.min(a, b), Math.max(a, b));
            }
        }
        for (int k = 2; k < corners; k++) {
            put(t, ring[0], ring[k - 1], ring[k]);
        }
    }

    private int cut(int a, int b) {
        return cuts.computeIfAbsent((long) a << 32 | b, key -> {
            if (3 * vertices + 3 > xyz.length) {
                xyz = Arrays.copyOf(xyz, 2 * xyz.length);
            }
            double s = value[a] / (value[a] - value[b]);
            for (int k = 0; k < 3; k++) {
                xyz[3 * vertices + k] = xyz[3 * a + k] + s * (xyz[3 * b + k] - xyz[3 * a + k]);
            }
            return vertices++;
        });
    }

    private void put(int t, int a, int b, int c) {
        if (size == source.length) {
            triangles = Arrays.copyOf(triangles, 6 * size);
            source = Arrays.copyOf(source, 2 * size);
        }
        triangles[3 * size] = a;
        triangles[3 * size + 1] = b;
        triangles[3 * size + 2] = c;
        source[size++] = t;
    }

    /** Without vertices that no triangle uses. */
    public static TriangleMesh compact(double[] xyz, int[] triangles) {
        int[] newIndex = new int[xyz.length / 3];
        Arrays.fill(newIndex, -1);
        double[] used = new double[xyz.length];
        int[] renamed = new int[triangles.length];
        int count = 0;
        for (int k = 0; k < triangles.length; k++) {
            int v = triangles[k];
            if (newIndex[v] < 0) {
                System.arraycopy(xyz, 3 * v, used, 3 * count, 3);
                newIndex[v] = count++;
            }
            renamed[k] = newIndex[v];
        }
        return new TriangleMesh(Arrays.copyOf(used, 3 * count), renamed);
    }
}
