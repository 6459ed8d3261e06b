package layupmold.geometry.offset.repair;

import com.carrotsearch.hppc.IntArrayList;
import com.carrotsearch.hppc.DoubleArrayList;

/** Places vertices on the field's zero set: on grid edges, on faces, and inside cells. Not for several threads. */
final class SurfacePoints {

    private static final int ROOT_STEPS = 12;
    /** How near to a grid corner an edge's vertex may come, in cell sizes. */
    private static final double EDGE_MARGIN = 0.004;
    private static final double CELL_MARGIN = 0.004;
    /** Normals that differ by more than about 25° make a crease. */
    private static final double CREASE_COSINE = 0.9;
    private static final double REGULARISATION = 0.02;

    private final OffsetField field;
    private final PatchMesh out;
    private final OffsetField.Sample sample = new OffsetField.Sample();
    private final IntArrayList nearest = new IntArrayList();
    private final DoubleArrayList normals = new DoubleArrayList();

    SurfacePoints(OffsetField field, PatchMesh out) {
        this.field = field;
        this.out = out;
    }

    /** Adds a vertex and remembers the field there. */
    int add(double[] p) {
        int v = out.addVertex(p[0], p[1], p[2]);
        field.at(p[0], p[1], p[2], sample);
        remember(v);
        return v;
    }

    /** Keeps what {@link #sample} says as the field at vertex {@code v}. */
    private void remember(int v) {
        while (nearest.size() <= v) {
            nearest.add(-1);
            normals.add(0, 0);
            normals.add(0);
        }
        nearest.set(v, sample.nearest.triangle);
        normals.set(3 * v, sample.nx);
        normals.set(3 * v + 1, sample.ny);
        normals.set(3 * v + 2, sample.nz);
    }

    private void know(int v) {
        if (v >= nearest.size() || nearest.get(v) < 0) {
            field.at(out.get(v, 0), out.get(v, 1), out.get(v, 2), sample);
            remember(v);
        }
    }

    /** Component {@code axis} of the field's gradient at vertex {@code v}. */
    double normal(int v, int axis) {
        know(v);
        return normals.get(3 * v + axis);
    }

    /** Sheet triangle nearest to vertex {@code v}. */
    int nearestTriangle(int v) {
        know(v);
        return nearest.get(v);
    }

    boolean isOutside(double[] p) {
        field.at(p[0], p[1], p[2], sample);
        return sample.value > 0;
    }

    private double valueAt(double[] p) {
        field.at(p[0], p[1], p[2], sample);
        return sample.value;
    }

    /** Field normal at a vertex. */
    private double[] normal(int v) {
        return new double[] {normal(v, 0), normal(v, 1), normal(v, 2)};
    }

    /** The root between the ends of a grid edge that starts at {@code start}: Illinois variant of regula falsi. */
    int onEdge(double[] start, int axis, double size, double lower, double upper) {
        double a = 0;
        double b = 1;
        double fa = lower;
        double fb = upper;
        double t = Math.abs(lower) < Math.abs(upper) ? EDGE_MARGIN : 1 - EDGE_MARGIN;
        double[] p = start.clone();
        if (lower * upper < 0) {
            for (int i = 0; i < ROOT_STEPS; i++) {
                t = (a * fb - b * fa) / (fb - fa);
                p[axis] = start[axis] + t * size;
                double f = valueAt(p);
                if (Math.abs(f) < 1e-7 * size) {
                    break;
                }
                if (f * fb < 0) {
                    a = b;
                    fa = fb;
                } else {
                    fa /= 2;
                }
                b = t;
                fb = f;
            }
        }
        t = Math.max(EDGE_MARGIN, Math.min(1 - EDGE_MARGIN, t));
        p[axis] = start[axis] + t * size;
        return add(p);
    }

    /** A vertex on a face between two on its edges: on the crease if there is one, else on the surface midway. */
    int between(int from, int to, int axis, long lowerCorner, CellGrid grid) {
        int b = (axis + 1) % 3;
        int c = (axis + 2) % 3;
        double[] n0 = normal(from);
        double[] n1 = normal(to);
        double[] p = new double[3];
        for (int k = 0; k < 3; k++) {
            p[k] = (out.get(from, k) + out.get(to, k)) / 2;
        }
        p[axis] = grid.plane(axis, CellGrid.component(lowerCorner, axis));
        double[] middle = p.clone();
        double l0 = Math.hypot(n0[b], n0[c]);
        double l1 = Math.hypot(n1[b], n1[c]);
        double cosine = (n0[b] * n1[b] + n0[c] * n1[c]) / (l0 * l1);
        if (cosine < CREASE_COSINE) {
            double det = n0[b] * n1[c] - n0[c] * n1[b];
            double r0 = n0[b] * out.get(from, b) + n0[c] * out.get(from, c);
            double r1 = n1[b] * out.get(to, b) + n1[c] * out.get(to, c);
            p[b] = (r0 * n1[c] - r1 * n0[c]) / det;
            p[c] = (n0[b] * r1 - n1[b] * r0) / det;
        } else {
            for (int i = 0; i < 2; i++) {
                double f = valueAt(p);
                double gb = component(b);
                double gc = component(c);
                double g2 = gb * gb + gc * gc;
                if (g2 < 0.05) {
                    break;
                }
                p[b] -= f * gb / g2;
                p[c] -= f * gc / g2;
            }
        }
        if (!(insideFace(p, b, lowerCorner, grid) && insideFace(p, c, lowerCorner, grid))) {
            p = middle;
        }
        return add(p);
    }

    /** The vertex halfway between two. */
    int midway(int from, int to) {
        return add(new double[] {(out.get(from, 0) + out.get(to, 0)) / 2, (out.get(from, 1) + out.get(to, 1)) / 2,
            (out.get(from, 2) + out.get(to, 2)) / 2});
    }

    private double component(int axis) {
        return axis == 0 ? sample.nx : axis == 1 ? sample.ny : sample.nz;
    }

    private static boolean insideFace(double[] p, int axis, long lowerCorner, CellGrid grid) {
        double share = (p[axis] - grid.plane(axis, CellGrid.component(lowerCorner, axis))) / grid.size;
        return share >= EDGE_MARGIN && share <= 1 - EDGE_MARGIN;
    }

    /** The inner vertex of a cell's cone. */
    int apex(IntArrayList loop, long cell, CellGrid grid) {
        double[] mass = new double[3];
        for (int i = 0; i < loop.size(); i++) {
            for (int k = 0; k < 3; k++) {
                mass[k] += out.get(loop.get(i), k) / loop.size();
            }
        }
        TangentPlanes planes = new TangentPlanes();
        double[] first = normal(loop.get(0));
        double agreement = 1;
        for (int i = 0; i < loop.size(); i++) {
            int v = loop.get(i);
            double[] n = normal(v);
            agreement = Math.min(agreement, n[0] * first[0] + n[1] * first[1] + n[2] * first[2]);
            planes.add(n, out.get(v, 0) - mass[0], out.get(v, 1) - mass[1], out.get(v, 2) - mass[2]);
        }
        double[] p = planes.solve(REGULARISATION);
        for (int k = 0; k < 3; k++) {
            p[k] += mass[k];
        }
        clamp(p, cell, grid);
        for (int i = 0; i < 2; i++) {
            double f = valueAt(p);
            p[0] -= f * sample.nx;
            p[1] -= f * sample.ny;
            p[2] -= f * sample.nz;
            clamp(p, cell, grid);
        }
        return add(p);
    }

    private static void clamp(double[] p, long cell, CellGrid grid) {
        for (int k = 0; k < 3; k++) {
            double low = grid.plane(k, CellGrid.component(cell, k));
            p[k] = Math.max(low + CELL_MARGIN * grid.size, Math.min(low + (1 - CELL_MARGIN) * grid.size, p[k]));
        }
    }
}
