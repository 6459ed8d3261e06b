package layupmold.geometry.face;

import java.util.Arrays;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Some triangles of a mesh with a vertex numbering of their own.
 *
 * @param mesh the triangles, in their old order
 * @param topology their half-edges
 * @param source index in the larger mesh of each triangle
 */
record FaceMesh(TriangleMesh mesh, EdgeTopology topology, int[] source) {

    private static final int PINCH_PASSES = 8;

    /**
     * Takes the kept triangles. Where two fans of them meet in one vertex only, the smaller fan is left out, so that the
     * boundary is a set of simple curves; O(n) a pass, and passes are rare.
     */
    static FaceMesh of(TriangleMesh mesh, boolean[] kept, double[] areas) {
        FaceMesh face = compact(mesh, kept);
        for (int pass = 0; pass < PINCH_PASSES; pass++) {
            int[] pinched = face.topology.nonManifoldVertices(face.mesh.vertexCount());
            if (pinched.length == 0) {
                return face;
            }
            for (int t : face.smallerFans(pinched, areas)) {
                kept[face.source[t]] = false;
            }
            face = compact(mesh, kept);
        }
        return face;
    }

    /** All triangles of a mesh, without the vertices that none of them has. */
    static FaceMesh of(TriangleMesh mesh, int[] source) {
        boolean[] all = new boolean[source.length];
        Arrays.fill(all, true);
        FaceMesh face = compact(mesh, all);
        return new FaceMesh(face.mesh, face.topology, source);
    }

    /** The same where this is part of a mesh that is part of a larger one, whose triangles are {@code larger}. */
    FaceMesh within(int[] larger) {
        return new FaceMesh(mesh, topology, Arrays.stream(source).map(t -> larger[t]).toArray());
    }

    /** The same triangles with corners at other places. */
    FaceMesh at(double[] xyz) {
        return new FaceMesh(new TriangleMesh(xyz, mesh.triangles()), topology, source);
    }

    /** Takes the kept triangles, whatever their boundary is like. */
    static FaceMesh compact(TriangleMesh mesh, boolean[] kept) {
        int count = 0;
        for (boolean k : kept) {
            count += k ? 1 : 0;
        }
        int[] number = new int[mesh.vertexCount()];
        Arrays.fill(number, -1);
        double[] xyz = new double[3 * Math.min(mesh.vertexCount(), 3 * count)];
        int[] triangles = new int[3 * count];
        int[] source = new int[count];
        int vertices = 0;
        int n = 0;
        for (int t = 0; t < kept.length; t++) {
            if (!kept[t]) {
                continue;
            }
            source[n] = t;
            for (int i = 0; i < 3; i++) {
                int v = mesh.triangles()[3 * t + i];
                if (number[v] < 0) {
                    System.arraycopy(mesh.xyz(), 3 * v, xyz, 3 * vertices, 3);
                    number[v] = vertices++;
                }
                triangles[3 * n + i] = number[v];
            }
            n++;
        }
        TriangleMesh small = new TriangleMesh(Arrays.copyOf(xyz, 3 * vertices), triangles);
        return new FaceMesh(small, EdgeTopology.of(small), source);
    }

    /** Triangles around each pinched vertex but those of its largest fan. */
    private int[] smallerFans(int[] pinched, double[] areas) {
        boolean[] isPinched = new boolean[mesh.vertexCount()];
        for (int v : pinched) {
            isPinched[v] = true;
        }
        double[] largest = new double[mesh.vertexCount()];
        int[] best = new int[mesh.vertexCount()];
        int[] fanOf = new int[topology.halfEdgeCount()];
        Arrays.fill(fanOf, -1);
        for (int h = 0; h < fanOf.length; h++) {
            int v = topology.from(h);
            if (isPinched[v] && fanOf[h] < 0) {
                double area = gather(h, fanOf, areas);
                if (area > largest[v]) {
                    largest[v] = area;
                    best[v] = h;
                }
            }
        }
        boolean[] drop = new boolean[source.length];
        int count = 0;
        for (int h = 0; h < fanOf.length; h++) {
            if (fanOf[h] >= 0 && fanOf[h] != best[topology.from(h)] && !drop[h / 3]) {
                drop[h / 3] = true;
                count++;
            }
        }
        int[] triangles = new int[count];
        for (int t = 0, i = 0; t < drop.length; t++) {
            if (drop[t]) {
                triangles[i++] = t;
            }
        }
        return triangles;
    }

    /** Marks the fan around the vertex that {@code first} leaves; its area. */
    private double gather(int first, int[] fanOf, double[] areas) {
        double area = 0;
        int h = first;
        while (h >= 0 && fanOf[h] < 0) {
            fanOf[h] = first;
            area += areas[source[h / 3]];
            h = topology.twin(EdgeTopology.previous(h));
        }
        h = topology.twin(first) >= 0 ? EdgeTopology.next(topology.twin(first)) : -1;
        while (h >= 0 && fanOf[h] < 0) {
            fanOf[h] = first;
            area += areas[source[h / 3]];
            h = topology.twin(h) >= 0 ? EdgeTopology.next(topology.twin(h)) : -1;
        }
        return area;
    }
}
