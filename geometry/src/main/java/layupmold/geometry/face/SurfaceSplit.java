package layupmold.geometry.face;

import java.util.Arrays;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * A labelled mesh cut along the zero line of a field on its vertices.
 *
 * @param mesh the input's vertices, then new ones on cut edges
 * @param kept label by triangle
 * @param source input triangle by triangle
 */
record SurfaceSplit(TriangleMesh mesh, boolean[] kept, int[] source) {

    /** A crossing nearer to an edge's end than this share of the edge moves to the end: no slivers. */
    private static final double SNAP = 0.08;

    /**
     * Cuts the triangles marked {@code cuttable} and labels their pieces by the field's sign (negative = kept). Their
     * neighbours are divided to match and keep their label. Edges are divided once for both sides, so a closed mesh
     * stays closed; O(n).
     *
     * @param field by vertex, changed: values at snapped vertices become 0
     */
    static SurfaceSplit of(TriangleMesh mesh, EdgeTopology topology, boolean[] kept, boolean[] cuttable,
            float[] field) {
        snap(topology, cuttable, field);
        int[] divided = new int[topology.halfEdgeCount()];
        Arrays.fill(divided, -1);
        int vertices = mesh.vertexCount();
        for (int h = 0; h < divided.length; h++) {
            if (divided[h] < 0 && isCrossed(topology, cuttable, field, h)) {
                divided[h] = vertices;
                if (topology.twin(h) >= 0) {
                    divided[topology.twin(h)] = vertices;
                }
                vertices++;
            }
        }
        double[] xyz = Arrays.copyOf(mesh.xyz(), 3 * vertices);
        for (int h = 0; h < divided.length; h++) {
            if (divided[h] >= 0 && (topology.twin(h) < 0 || h < topology.twin(h))) {
                place(xyz, topology.from(h), topology.to(h), field, divided[h]);
            }
        }
        return emit(mesh, topology, kept, cuttable, field, divided, xyz);
    }

    private static void snap(EdgeTopology topology, boolean[] cuttable, float[] field) {
        for (int h = 0; h < topology.halfEdgeCount(); h++) {
            if (!isCrossed(topology, cuttable, field, h)) {
                continue;
            }
            double a = field[topology.from(h)];
            double b = field[topology.to(h)];
            double share = a / (a - b);
            if (share < SNAP) {
                field[topology.from(h)] = 0;
            } else if (share > 1 - SNAP) {
                field[topology.to(h)] = 0;
            }
        }
    }

    private static boolean isCrossed(EdgeTopology topology, boolean[] cuttable, float[] field, int h) {
        int g = topology.twin(h);
        return (cuttable[h / 3] || g >= 0 && cuttable[g / 3])
                && field[topology.from(h)] * field[topology.to(h)] < 0;
    }

    private static void place(double[] xyz, int a, int b, float[] field, int v) {
        double share = field[a] / ((double) field[a] - field[b]);
        for (int k = 0; k < 3; k++) {
            xyz[3 * v + k] = xyz[3 * a + k] + share * (xyz[3 * b + k] - xyz[3 * a + k]);
        }
    }

    private static SurfaceSplit emit(TriangleMesh mesh, EdgeTopology topology, boolean[] kept, boolean[] cuttable,
            float[] field, int[] divided, double[] xyz) {
        int extra = 0;
        for (int d : divided) {
            if (d >= 0) {
                extra++;
            }
        }
        Pieces pieces = new Pieces(xyz, mesh.triangleCount() + extra);
        int[] corners = mesh.triangles();
        for (int t = 0; t < mesh.triangleCount(); t++) {
            int count = 0;
            int odd = -1;
            for (int i = 0; i < 3; i++) {
                if (divided[3 * t + i] >= 0) {
                    count++;
                } else {
                    odd = i;
                }
            }
            Labels labels = new Labels(field, cuttable[t], kept[t]);
            int h = 3 * t;
            if (count == 0) {
                pieces.add(corners[h], corners[h + 1], corners[h + 2], t,
                        labels.of(corners[h], corners[h + 1], corners[h + 2]));
            } else if (count == 1) {
                int cut = divided[h] >= 0 ? h : divided[h + 1] >= 0 ? h + 1 : h + 2;
                pieces.halve(topology, cut, divided[cut], t, labels);
            } else {
                pieces.cutCorner(topology, 3 * t + odd, divided, t, labels);
            }
        }
        return new SurfaceSplit(new TriangleMesh(xyz, pieces.triangles), pieces.kept, pieces.source).trimmed(
                pieces.count);
    }

    /** True if no triangle was divided. */
    boolean isWhole() {
        return source.length == 0 || source[source.length - 1] == source.length - 1;
    }

    /** The same where what was cut is itself cut from a part, from whose triangles its own are. */
    SurfaceSplit within(int[] larger) {
        return new SurfaceSplit(mesh, kept, Arrays.stream(source).map(t -> larger[t]).toArray());
    }

    /** Triangle areas, mm². */
    double[] areas() {
        return mesh.areas();
    }

    private SurfaceSplit trimmed(int count) {
        return new SurfaceSplit(new TriangleMesh(mesh.xyz(), Arrays.copyOf(mesh.triangles(), 3 * count)),
                Arrays.copyOf(kept, count), Arrays.copyOf(source, count));
    }

    /** Label of a triangle's pieces. */
    private record Labels(float[] field, boolean cut, boolean whole) {

        boolean of(int vertex) {
            return cut ? field[vertex] < 0 : whole;
        }

        boolean of(int a, int b, int c) {
            if (!cut || field[a] == 0 && field[b] == 0 && field[c] == 0) {
                return whole;
            }
            return field[a] < 0 || field[b] < 0 || field[c] < 0;
        }
    }

    /** Triangles in the making. */
    private static final class Pieces {
        final double[] xyz;
        final int[] triangles;
        final boolean[] kept;
        final int[] source;
        int count;

        Pieces(double[] xyz, int capacity) {
            this.xyz = xyz;
            triangles = new int[3 * capacity];
            kept = new boolean[capacity];
            source = new int[capacity];
        }

        void add(int a, int b, int c, int from, boolean label) {
            triangles[3 * count] = a;
            triangles[3 * count + 1] = b;
            triangles[3 * count + 2] = c;
            source[count] = from;
            kept[count++] = label;
        }

        void halve(EdgeTopology topology, int h, int m, int t, Labels labels) {
            int a = topology.from(h);
            int b = topology.to(h);
            int c = topology.from(EdgeTopology.previous(h));
            add(a, m, c, t, labels.of(a));
            add(m, b, c, t, labels.of(b));
        }

        /** Cuts off the corner opposite to the undivided half-edge {@code h}. */
        void cutCorner(EdgeTopology topology, int h, int[] divided, int t, Labels labels) {
            int a = topology.from(h);
            int b = topology.to(h);
            int c = topology.from(EdgeTopology.previous(h));
            int onBc = divided[EdgeTopology.next(h)];
            int onCa = divided[EdgeTopology.previous(h)];
            add(onCa, onBc, c, t, labels.of(c));
            if (distance(a, onBc) <= distance(b, onCa)) {
                add(a, b, onBc, t, labels.of(b));
                add(a, onBc, onCa, t, labels.of(a));
            } else {
                add(a, b, onCa, t, labels.of(a));
                add(b, onBc, onCa, t, labels.of(b));
            }
        }

        private double distance(int a, int b) {
            double dx = xyz[3 * a] - xyz[3 * b];
            double dy = xyz[3 * a + 1] - xyz[3 * b + 1];
            double dz = xyz[3 * a + 2] - xyz[3 * b + 2];
            return dx * dx + dy * dy + dz * dz;
        }
    }
}
