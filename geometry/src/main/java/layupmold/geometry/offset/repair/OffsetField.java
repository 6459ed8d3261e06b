package layupmold.geometry.offset.repair;

import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.bvh.Neighbourhood;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.PseudoNormals;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.VertexTriangles;
import layupmold.geometry.simplify.Target;

/**
 * A scalar field whose zero set is the offset surface in front of an open or closed sheet: negative near the sheet and
 * behind it, positive beyond the offset.
 *
 * <p>The field is the signed Euclidean distance less the offset, so its zero set is rounded in front of a convex edge or
 * corner. Beside it stands the height over the farthest of the incident planes, whose zero set is mitred as the vertex
 * offset mitres it, up to the mitre limit; a surface between the two is on the offset as well ({@link Sample#miss}).
 * Sides are told by the sign against the plane of the nearest triangle or the incident ones that decide (Baerentzen and
 * Aanaes, "Signed distance computation using the angle weighted pseudonormal", 2005). O(log n) a value.
 */
public final class OffsetField {

    /** Barycentric weights below this count as zero: the nearest point lies on an edge or corner. */
    private static final double ON_EDGE = 1e-7;
    /** Nearer than this the direction to the nearest point says nothing. */
    private static final double TOUCHING_MM = 1e-9;
    /** What misses the mitred offset by less is not worth a second query. */
    private static final double LEAST_MITRE_MM = 1e-3;
    private static final double LIKELY_SHARE = 1.2;
    private static final double LIKELY_MM = 0.05;
    private static final int PROJECTION_STEPS = 4;
    private static final double PROJECTED_MM = 1e-6;

    private final double[] xyz;
    private final int[] triangles;
    private final double[] normals;
    private final EdgeTopology topology;
    private final VertexTriangles around;
    private final double[] vertexNormals;
    private final boolean[] onBorder;
    private final TriangleBvh bvh;
    private final boolean[] isCopied;
    private final double offset;
    private final double mitreLimit;
    private final double likely;

    /** @param isCopied which triangles are not flange */
    OffsetField(TriangleMesh sheet, boolean[] isCopied, double offset, double mitreLimit) {
        this.isCopied = isCopied;
        this.xyz = sheet.xyz();
        this.triangles = sheet.triangles();
        this.normals = sheet.unitNormals();
        this.topology = EdgeTopology.of(sheet);
        this.around = VertexTriangles.of(sheet);
        this.vertexNormals = PseudoNormals.atVertices(sheet, normals, around);
        this.onBorder = topology.borderVertices(sheet.vertexCount());
        this.bvh = TriangleBvh.of(sheet);
        this.offset = offset;
        this.mitreLimit = mitreLimit;
        this.likely = LIKELY_SHARE * offset + LIKELY_MM;
    }

    /** A hierarchy of the sheet's triangles after their vertices moved. */
    TriangleBvh hierarchyOf(TriangleMesh moved) {
        return bvh.movedTo(moved);
    }

    /** One evaluation; reused by one thread. */
    static final class Sample {
        final NearestPoint nearest = new NearestPoint();
        /** Value of the field, mm: signed distance less the offset. */
        double value;
        /** Height above the farthest plane through the nearest point, less the offset; at most {@link #value}. */
        double mitred;
        /** Gradient direction, unit length. */
        double nx;
        double ny;
        double nz;
        /** Of places that much is asked about, if that was said. */
        private Neighbourhood beside;
        /** True where the nearest point lies on the sheet's boundary: the field means nothing there. */
        boolean beyondBoundary;
        private double pseudoX;
        private double pseudoY;
        private double pseudoZ;
        private double farthest;
        private boolean onFlange;

        /** Signed distance to the band between the round and the mitred offset surface, mm; zero inside it. */
        double miss() {
            return value < 0 ? value : Math.max(0, mitred);
        }
    }

    /** Its {@link Sample#miss} as what a mesh stands for, for one thread; 0 beyond the sheet's boundary. */
    public Target target() {
        return target(false);
    }

    /** The same beyond the boundary too. */
    Target targetAnywhere() {
        return target(true);
    }

    private Target target(boolean beyondBoundary) {
        Sample sample = new Sample();
        return new Target() {
            @Override
            public double miss(double x, double y, double z) {
                at(x, y, z, sample);
                return sample.beyondBoundary && !beyondBoundary ? 0 : sample.miss();
            }

            @Override
            public void beside(double x, double y, double z, double reachMm) {
                sample.beside = sample.beside == null ? new Neighbourhood(bvh) : sample.beside;
                sample.beside.gather(x, y, z, reachMm, likely);
            }

            @Override
            public double along(double x, double y, double z) {
                return sample.nx * x + sample.ny * y + sample.nz * z;
            }

            @Override
            public double overRoundMm() {
                return sample.beyondBoundary ? 0 : Math.max(0, sample.value);
            }
        };
    }

    /** Evaluates the field at (x, y, z). */
    void at(double x, double y, double z, Sample s) {
        if (s.beside != null && s.beside.covers(x, y, z)) {
            s.beside.nearest(x, y, z, s.nearest);
        } else {
            // Nearly all that is asked about lies near the offset.
            bvh.nearestAnywhere(x, y, z, likely, null, s.nearest);
        }
        double dx = x - s.nearest.x;
        double dy = y - s.nearest.y;
        double dz = z - s.nearest.z;
        double distance = Math.sqrt(s.nearest.distanceSquared);
        s.beyondBoundary = false;
        s.farthest = Double.NEGATIVE_INFINITY;
        s.onFlange = false;
        s.pseudoX = s.pseudoY = s.pseudoZ = 0;
        gather(dx, dy, dz, s);
        boolean front = s.pseudoX * dx + s.pseudoY * dy + s.pseudoZ * dz >= 0;
        double signed = front ? distance : -distance;
        s.value = signed - offset;
        s.mitred = front ? Math.max(s.farthest, distance / mitreLimit) - offset : s.value;
        if (s.onFlange && s.mitred > LEAST_MITRE_MM) {
            s.mitred = Math.min(s.mitred, mitredOverCopied(x, y, z));
        }
        if (distance > TOUCHING_MM) {
            s.nx = dx / signed;
            s.ny = dy / signed;
            s.nz = dz / signed;
        } else {
            double length = Math.sqrt(s.pseudoX * s.pseudoX + s.pseudoY * s.pseudoY + s.pseudoZ * s.pseudoZ);
            s.nx = s.pseudoX / length;
            s.ny = s.pseudoY / length;
            s.nz = s.pseudoZ / length;
        }
    }

    /** The mitred height over what is copied alone: its mitre goes on where the flange, bent back from it, is nearer. */
    private double mitredOverCopied(double x, double y, double z) {
        Sample s = new Sample();
        s.farthest = Double.NEGATIVE_INFINITY;
        bvh.nearest(x, y, z, mitreLimit * offset, t -> isCopied[t], s.nearest);
        if (s.nearest.triangle < 0) {
            return Double.POSITIVE_INFINITY;
        }
        gather(x - s.nearest.x, y - s.nearest.y, z - s.nearest.z, s);
        return s.farthest <= 0 ? Double.POSITIVE_INFINITY
                : Math.max(s.farthest, Math.sqrt(s.nearest.distanceSquared) / mitreLimit) - offset;
    }

    /**
     * Moves {@code p} along the gradient until it misses the offset surface by no more than rounding.
     *
     * @param s receives the field at the end
     * @return false, and {@code p} as it was, if that leads farther than {@code reach} mm
     */
    boolean project(double[] p, double reach, Sample s) {
        double x = p[0];
        double y = p[1];
        double z = p[2];
        at(x, y, z, s);
        for (int i = 0; i < PROJECTION_STEPS && Math.abs(s.miss()) > PROJECTED_MM; i++) {
            double miss = s.miss();
            x -= miss * s.nx;
            y -= miss * s.ny;
            z -= miss * s.nz;
            at(x, y, z, s);
        }
        double dx = x - p[0];
        double dy = y - p[1];
        double dz = z - p[2];
        if (dx * dx + dy * dy + dz * dz > reach * reach || s.beyondBoundary) {
            return false;
        }
        p[0] = x;
        p[1] = y;
        p[2] = z;
        return true;
    }

    /** How far the place of a vertex of the sheet is from the offset of the plane of one of its triangles, at the most. */
    double planeMiss(int v, double x, double y, double z) {
        double most = 0;
        for (int i = around.start(v); i < around.start(v + 1); i++) {
            int n = 3 * around.triangle(i);
            double height = normals[n] * (x - xyz[3 * v]) + normals[n + 1] * (y - xyz[3 * v + 1])
                    + normals[n + 2] * (z - xyz[3 * v + 2]);
            most = Math.max(most, Math.abs(height - offset));
        }
        return most;
    }

    /** Takes in every triangle at the nearest point: one inside a face, two on an edge, a fan at a corner. */
    private void gather(double dx, double dy, double dz, Sample s) {
        int t = s.nearest.triangle;
        int corner = cornerAt(t, s.nearest);
        if (corner >= 0) {
            int v = triangles[3 * t + corner];
            for (int i = around.start(v); i < around.start(v + 1); i++) {
                include(around.triangle(i), dx, dy, dz, s);
            }
            s.pseudoX = vertexNormals[3 * v];
            s.pseudoY = vertexNormals[3 * v + 1];
            s.pseudoZ = vertexNormals[3 * v + 2];
            s.beyondBoundary |= onBorder[v];
            return;
        }
        include(t, dx, dy, dz, s);
        int edge = edgeAt(t, s.nearest);
        if (edge >= 0) {
            int twin = topology.twin(3 * t + edge);
            if (twin >= 0) {
                include(twin / 3, dx, dy, dz, s);
            } else {
                s.beyondBoundary = true;
            }
        }
    }

    private void include(int t, double dx, double dy, double dz, Sample s) {
        double nx = normals[3 * t];
        double ny = normals[3 * t + 1];
        double nz = normals[3 * t + 2];
        s.pseudoX += nx;
        s.pseudoY += ny;
        s.pseudoZ += nz;
        s.onFlange |= !isCopied[t];
        s.farthest = Math.max(s.farthest, nx * dx + ny * dy + nz * dz);
    }

    /** Corner of triangle {@code t} that the nearest point coincides with, or -1. */
    private int cornerAt(int t, NearestPoint p) {
        double scale = longestEdgeSquared(t) * ON_EDGE * ON_EDGE;
        for (int k = 0; k < 3; k++) {
            int v = 3 * triangles[3 * t + k];
            double dx = xyz[v] - p.x;
            double dy = xyz[v + 1] - p.y;
            double dz = xyz[v + 2] - p.z;
            if (dx * dx + dy * dy + dz * dz <= scale) {
                return k;
            }
        }
        return -1;
    }

    /** Edge (from corner k to k + 1) of triangle {@code t} that the nearest point lies on, or -1. */
    private int edgeAt(int t, NearestPoint p) {
        double scale = longestEdgeSquared(t) * ON_EDGE * ON_EDGE;
        for (int k = 0; k < 3; k++) {
            int a = 3 * triangles[3 * t + k];
            int b = 3 * triangles[3 * t + (k + 1) % 3];
            double ex = xyz[b] - xyz[a];
            double ey = xyz[b + 1] - xyz[a + 1];
            double ez = xyz[b + 2] - xyz[a + 2];
            double px = p.x - xyz[a];
            double py = p.y - xyz[a + 1];
            double pz = p.z - xyz[a + 2];
            double cx = ey * pz - ez * py;
            double cy = ez * px - ex * pz;
            double cz = ex * py - ey * px;
            if (cx * cx + cy * cy + cz * cz <= scale * (ex * ex + ey * ey + ez * ez)) {
                return k;
            }
        }
        return -1;
    }

    private double longestEdgeSquared(int t) {
        double longest = 0;
        for (int k = 0; k < 3; k++) {
            int a = 3 * triangles[3 * t + k];
            int b = 3 * triangles[3 * t + (k + 1) % 3];
            double ex = xyz[b] - xyz[a];
            double ey = xyz[b + 1] - xyz[a + 1];
            double ez = xyz[b + 2] - xyz[a + 2];
            longest = Math.max(longest, ex * ex + ey * ey + ez * ez);
        }
        return longest;
    }
}
