package layupmold.geometry.drape;

import layupmold.geometry.mesh.EdgeTopology;

/**
 * A strip of adjacent triangles laid flat, one after the other, without stretching any. The straight distance between
 * two points of the flat strip is how far it is between them over the surface: exact where the surface is developable,
 * creases included, and off by the curvature enclosed between strip and shortest way elsewhere.
 */
final class StripUnfolding implements SectionWalk.Crossings {

    private final double[] xyz;
    private final int[] triangles;
    /** Flat ends of the edge crossed last, as the triangle beyond has it: first end, second end. */
    private int v;
    private int w;
    private double vx;
    private double vy;
    private double wx;
    private double wy;
    /** Flat third corner of the triangle beyond. */
    private double apexX;
    private double apexY;
    private final double[] start = new double[3];
    private boolean crossed;
    private double flatX;
    private double flatY;
    /** Direction of the first edge, the flat x axis. */
    private double axisX;
    private double axisY;
    private double axisZ;

    StripUnfolding(ToolSheet sheet) {
        this.xyz = sheet.mesh().xyz();
        this.triangles = sheet.mesh().triangles();
    }

    /** Begins a strip at a point, which becomes the flat origin. */
    void begin(double[] p) {
        System.arraycopy(p, 0, start, 0, 3);
        crossed = false;
    }

    /** The strip goes on over half-edge {@code exit} to its twin. */
    @Override
    public void cross(int exit, int twin) {
        int from = triangles[exit];
        int to = triangles[EdgeTopology.next(exit)];
        if (crossed) {
            double fx = flatXOf(from);
            double fy = flatYOf(from);
            double tx = flatXOf(to);
            double ty = flatYOf(to);
            setEdge(from, fx, fy, to, tx, ty);
        } else {
            firstEdge(from, to);
        }
        int apex = triangles[EdgeTopology.next(EdgeTopology.next(twin))];
        place(xyz[3 * apex], xyz[3 * apex + 1], xyz[3 * apex + 2]);
        apexX = flatX;
        apexY = flatY;
        crossed = true;
    }

    /** From the strip's beginning to a point in its last triangle. */
    double distanceTo(double[] p) {
        if (!crossed) {
            return Math.sqrt((p[0] - start[0]) * (p[0] - start[0]) + (p[1] - start[1]) * (p[1] - start[1])
                    + (p[2] - start[2]) * (p[2] - start[2]));
        }
        place(p[0], p[1], p[2]);
        return Math.sqrt(flatX * flatX + flatY * flatY);
    }

    /**
     * Direction in which the straight way to the last point asked for leaves the start.
     *
     * @param normals unit normals, the first triangle's at {@code offset}
     */
    void leaving(double[] normals, int offset, double[] into) {
        double length = Math.sqrt(flatX * flatX + flatY * flatY);
        double x = flatX / length;
        double y = flatY / length;
        into[0] = x * axisX + y * (normals[offset + 1] * axisZ - normals[offset + 2] * axisY);
        into[1] = x * axisY + y * (normals[offset + 2] * axisX - normals[offset] * axisZ);
        into[2] = x * axisZ + y * (normals[offset] * axisY - normals[offset + 1] * axisX);
    }

    boolean isOneTriangle() {
        return !crossed;
    }

    /** Lays the first edge down so that the start is the origin and lies to the edge's left. */
    private void firstEdge(int from, int to) {
        double ex = xyz[3 * to] - xyz[3 * from];
        double ey = xyz[3 * to + 1] - xyz[3 * from + 1];
        double ez = xyz[3 * to + 2] - xyz[3 * from + 2];
        double length = Math.sqrt(ex * ex + ey * ey + ez * ez);
        axisX = length == 0 ? 0 : ex / length;
        axisY = length == 0 ? 0 : ey / length;
        axisZ = length == 0 ? 0 : ez / length;
        double px = start[0] - xyz[3 * from];
        double py = start[1] - xyz[3 * from + 1];
        double pz = start[2] - xyz[3 * from + 2];
        double along = px * axisX + py * axisY + pz * axisZ;
        double across = Math.sqrt(Math.max(0, px * px + py * py + pz * pz - along * along));
        setEdge(from, -along, -across, to, length - along, -across);
    }

    private void setEdge(int from, double fx, double fy, int to, double tx, double ty) {
        v = from;
        vx = fx;
        vy = fy;
        w = to;
        wx = tx;
        wy = ty;
    }

    private double flatXOf(int corner) {
        return corner == v ? vx : corner == w ? wx : apexX;
    }

    private double flatYOf(int corner) {
        return corner == v ? vy : corner == w ? wy : apexY;
    }

    /** Where a point of the triangle beyond the edge comes to lie: to the edge's right. */
    private void place(double x, double y, double z) {
        double ex = xyz[3 * w] - xyz[3 * v];
        double ey = xyz[3 * w + 1] - xyz[3 * v + 1];
        double ez = xyz[3 * w + 2] - xyz[3 * v + 2];
        double length = Math.sqrt(ex * ex + ey * ey + ez * ez);
        if (length == 0) {
            flatX = vx;
            flatY = vy;
            return;
        }
        double px = x - xyz[3 * v];
        double py = y - xyz[3 * v + 1];
        double pz = z - xyz[3 * v + 2];
        double along = (px * ex + py * ey + pz * ez) / length;
        double across = Math.sqrt(Math.max(0, px * px + py * py + pz * pz - along * along));
        double ux = (wx - vx) / length;
        double uy = (wy - vy) / length;
        flatX = vx + along * ux + across * uy;
        flatY = vy + along * uy - across * ux;
    }
}
