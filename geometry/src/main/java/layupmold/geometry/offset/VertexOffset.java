package layupmold.geometry.offset;

import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.VertexTriangles;
import layupmold.geometry.parallel.Parallel;

/**
 * Moves every vertex so that the planes of its triangles move by the offset: the input's tessellation and its crisp
 * edges survive.
 *
 * <p>Each displacement x minimises Σ w (n·x − o)² over the incident unit normals n with corner angles w, regularised
 * towards the displacement along the mean normal where the normals span too little to say more (smooth or noisy
 * surface). At a sharp corner of up to three planes the planes are met exactly, so convex edges come out mitred. This
 * is the vertex-plane fit of Liu and Wang, "Fast intersection-free offset surface generation from freeform models with
 * triangular meshes", 2011, without its intersection handling: creases tighter than the offset fold, which the caller
 * must look for. O(n).
 */
final class VertexOffset {

    /** How far a mitre may reach, in offsets; a right-angled corner of three planes needs 1.73. */
    static final double MITRE_LIMIT = 2.5;
    /** Eigenvalues of Σ w n nᵀ / Σ w below this are taken for smoothness or noise, well above for a crease. */
    private static final double REGULARISATION = 1e-3;
    private static final int GRAIN = 1 << 13;

    private VertexOffset() {
    }

    /** Coordinates of the vertices of {@code mesh} moved by {@code offset} mm along the triangles' fronts. */
    static double[] offset(TriangleMesh mesh, double offset) {
        double[] moved = mesh.xyz().clone();
        double[] normals = mesh.unitNormals();
        VertexTriangles around = VertexTriangles.of(mesh);
        Parallel.forRanges(mesh.vertexCount(), GRAIN, (chunk, from, to) -> {
            Fit fit = new Fit(mesh, normals, around);
            for (int v = from; v < to; v++) {
                fit.solve(v, offset);
                moved[3 * v] += fit.x;
                moved[3 * v + 1] += fit.y;
                moved[3 * v + 2] += fit.z;
            }
        });
        return moved;
    }

    /** The least-squares fit at one vertex; fields are scratch of one thread. */
    private static final class Fit {
        private final TriangleMesh mesh;
        private final double[] normals;
        private final VertexTriangles around;
        private double xx;
        private double xy;
        private double xz;
        private double yy;
        private double yz;
        private double zz;
        private double sx;
        private double sy;
        private double sz;
        private double weight;
        private double x;
        private double y;
        private double z;

        Fit(TriangleMesh mesh, double[] normals, VertexTriangles around) {
            this.mesh = mesh;
            this.normals = normals;
            this.around = around;
        }

        void solve(int v, double offset) {
            gather(v);
            double length = Math.sqrt(sx * sx + sy * sy + sz * sz);
            x = 0;
            y = 0;
            z = 0;
            if (length < 1e-12 * Math.max(weight, 1e-300)) {
                return;
            }
            double mx = sx / length;
            double my = sy / length;
            double mz = sz / length;
            // Along the mean normal m the best length is Σ w (n·m) / Σ w (n·m)².
            double quadratic = mx * (xx * mx + 2 * (xy * my + xz * mz)) + my * (yy * my + 2 * yz * mz) + mz * mz * zz;
            double along = Math.min(length / quadratic, MITRE_LIMIT);
            refine(mx * along, my * along, mz * along);
            double reach = Math.sqrt(x * x + y * y + z * z);
            double scale = offset * Math.min(1, MITRE_LIMIT / reach);
            x *= scale;
            y *= scale;
            z *= scale;
        }

        private void gather(int v) {
            xx = xy = xz = yy = yz = zz = sx = sy = sz = weight = 0;
            for (int i = around.start(v); i < around.start(v + 1); i++) {
                double w = mesh.angle(around.triangle(i), v);
                int t = 3 * around.triangle(i);
                double nx = normals[t];
                double ny = normals[t + 1];
                double nz = normals[t + 2];
                xx += w * nx * nx;
                xy += w * nx * ny;
                xz += w * nx * nz;
                yy += w * ny * ny;
                yz += w * ny * nz;
                zz += w * nz * nz;
                sx += w * nx;
                sy += w * ny;
                sz += w * nz;
                weight += w;
            }
        }

        /** Solves (A + εI)(x − x₀) = b − A x₀ for unit offset, with A = Σ w n nᵀ and b = Σ w n. */
        private void refine(double x0, double y0, double z0) {
            double rx = sx - (xx * x0 + xy * y0 + xz * z0);
            double ry = sy - (xy * x0 + yy * y0 + yz * z0);
            double rz = sz - (xz * x0 + yz * y0 + zz * z0);
            double e = REGULARISATION * weight;
            double a = xx + e;
            double d = yy + e;
            double f = zz + e;
            double c00 = d * f - yz * yz;
            double c01 = xz * yz - xy * f;
            double c02 = xy * yz - xz * d;
            double det = a * c00 + xy * c01 + xz * c02;
            double c11 = a * f - xz * xz;
            double c12 = xy * xz - a * yz;
            double c22 = a * d - xy * xy;
            x = x0 + (c00 * rx + c01 * ry + c02 * rz) / det;
            y = y0 + (c01 * rx + c11 * ry + c12 * rz) / det;
            z = z0 + (c02 * rx + c12 * ry + c22 * rz) / det;
        }
    }
}
