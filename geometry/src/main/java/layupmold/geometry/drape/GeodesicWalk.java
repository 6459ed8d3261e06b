package layupmold.geometry.drape;

import layupmold.geometry.mesh.EdgeTopology;

/**
 * A straightest geodesic over the sheet: straight within a triangle, and straight across an edge once its two triangles
 * are unfolded into one plane (Polthier and Schmies 1998, with hits on a vertex pushed to an edge beside it). Past the
 * sheet's edge it goes straight on.
 */
final class GeodesicWalk {

    private final double[] xyz;
    private final int[] triangles;
    private final double[] normals;
    private final EdgeTopology topology;
    private final boolean overTheSheet;

    /** Current point; start of the next step. */
    final double[] point = new double[3];
    /** Current unit direction, in the plane of the current triangle. */
    final double[] dir = new double[3];
    int triangle;
    boolean offSheet;

    /** @param overTheSheet whether steps are measured along the way walked, or straight */
    GeodesicWalk(ToolSheet sheet, boolean overTheSheet) {
        this.overTheSheet = overTheSheet;
        this.xyz = sheet.mesh().xyz();
        this.triangles = sheet.mesh().triangles();
        this.normals = sheet.normals();
        this.topology = sheet.topology();
    }

    /** Stands in triangle {@code t} at {@code p}, looking along {@code towards} as projected into its plane. */
    boolean start(int t, double[] p, double[] towards) {
        System.arraycopy(p, 0, point, 0, 3);
        triangle = t;
        offSheet = false;
        double along = dotNormal(t, towards[0], towards[1], towards[2]);
        for (int k = 0; k < 3; k++) {
            dir[k] = towards[k] - along * normals[3 * t + k];
        }
        return normalise();
    }

    /** Walks until the distance from where it stood is {@code stepMm}; false if it got stuck. */
    boolean step(double stepMm) {
        double ox = point[0];
        double oy = point[1];
        double oz = point[2];
        double reach = 20 * stepMm;
        double walked = 0;
        int entry = -1;
        while (reach > 0) {
            int exit = entry < 0 ? exitFromInside() : exitFrom(entry);
            if (exit < 0) {
                return false;
            }
            int v = 3 * triangles[exit];
            int w = 3 * triangles[EdgeTopology.next(exit)];
            double s = edgeCut(v, w);
            double qx = xyz[v] + s * (xyz[w] - xyz[v]);
            double qy = xyz[v + 1] + s * (xyz[w + 1] - xyz[v + 1]);
            double qz = xyz[v + 2] + s * (xyz[w + 2] - xyz[v + 2]);
            double length = Math.sqrt((qx - point[0]) * (qx - point[0]) + (qy - point[1]) * (qy - point[1])
                    + (qz - point[2]) * (qz - point[2]));
            if (overTheSheet && walked + length >= stepMm) {
                move(stepMm - walked);
                return true;
            }
            if (!overTheSheet && (qx - ox) * (qx - ox) + (qy - oy) * (qy - oy) + (qz - oz) * (qz - oz)
                    >= stepMm * stepMm) {
                stopAtChord(ox, oy, oz, stepMm);
                return true;
            }
            walked += length;
            reach -= length + 1e-6 * stepMm;
            point[0] = qx;
            point[1] = qy;
            point[2] = qz;
            int twin = topology.twin(exit);
            if (twin < 0) {
                offSheet = true;
                if (overTheSheet) {
                    move(stepMm - walked);
                } else {
                    stopAtChord(ox, oy, oz, stepMm);
                }
                return true;
            }
            unfold(v, w, twin / 3);
            entry = twin;
        }
        return false;
    }

    /** Moves on along the current direction to the given straight distance from o. */
    private void stopAtChord(double ox, double oy, double oz, double chord) {
        double fx = point[0] - ox;
        double fy = point[1] - oy;
        double fz = point[2] - oz;
        double b = fx * dir[0] + fy * dir[1] + fz * dir[2];
        double c = fx * fx + fy * fy + fz * fz - chord * chord;
        move(-b + Math.sqrt(Math.max(0, b * b - c)));
    }

    private void move(double distance) {
        for (int k = 0; k < 3; k++) {
            point[k] += distance * dir[k];
        }
    }

    /** Positive if vertex offset {@code v} lies to the left of the ray. */
    private double left(int v) {
        double wx = xyz[v] - point[0];
        double wy = xyz[v + 1] - point[1];
        double wz = xyz[v + 2] - point[2];
        return dotNormal(triangle, dir[1] * wz - dir[2] * wy, dir[2] * wx - dir[0] * wz, dir[0] * wy - dir[1] * wx);
    }

    private int exitFromInside() {
        for (int h = 3 * triangle; h < 3 * triangle + 3; h++) {
            if (left(3 * triangles[h]) < 0 && left(3 * triangles[EdgeTopology.next(h)]) >= 0) {
                return h;
            }
        }
        return -1;
    }

    private int exitFrom(int entry) {
        int h = EdgeTopology.next(entry);
        return left(3 * triangles[EdgeTopology.next(h)]) > 0 ? h : EdgeTopology.next(h);
    }

    private double edgeCut(int v, int w) {
        double a = left(v);
        double b = left(w);
        return a == b ? 0.5 : Math.min(1, Math.max(0, a / (a - b)));
    }

    private void unfold(int v, int w, int into) {
        double ex = xyz[w] - xyz[v];
        double ey = xyz[w + 1] - xyz[v + 1];
        double ez = xyz[w + 2] - xyz[v + 2];
        double length = Math.sqrt(ex * ex + ey * ey + ez * ez);
        int from = triangle;
        triangle = into;
        int n = 3 * into;
        if (length == 0 || normals[n] == 0 && normals[n + 1] == 0 && normals[n + 2] == 0) {
            return;
        }
        ex /= length;
        ey /= length;
        ez /= length;
        int m = 3 * from;
        double along = dir[0] * ex + dir[1] * ey + dir[2] * ez;
        double across = dir[0] * (normals[m + 1] * ez - normals[m + 2] * ey)
                + dir[1] * (normals[m + 2] * ex - normals[m] * ez)
                + dir[2] * (normals[m] * ey - normals[m + 1] * ex);
        dir[0] = along * ex + across * (normals[n + 1] * ez - normals[n + 2] * ey);
        dir[1] = along * ey + across * (normals[n + 2] * ex - normals[n] * ez);
        dir[2] = along * ez + across * (normals[n] * ey - normals[n + 1] * ex);
        normalise();
    }

    private double dotNormal(int t, double x, double y, double z) {
        return normals[3 * t] * x + normals[3 * t + 1] * y + normals[3 * t + 2] * z;
    }

    private boolean normalise() {
        double length = Math.sqrt(dir[0] * dir[0] + dir[1] * dir[1] + dir[2] * dir[2]);
        if (!(length > 1e-12)) {
            return false;
        }
        for (int k = 0; k < 3; k++) {
            dir[k] /= length;
        }
        return true;
    }
}
