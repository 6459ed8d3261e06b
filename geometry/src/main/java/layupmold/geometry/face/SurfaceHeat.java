package layupmold.geometry.face;

import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;

/**
 * Evens out numbers over a surface as heat would: backward Euler steps of the finite element heat equation with
 * cotangent weights (Pinkall, Polthier 1993) and lumped masses, each solved by conjugate gradients (Hestenes, Stiefel 1952).
 */
final class SurfaceHeat {

    /** Needles may not outweigh everything else. */
    private static final double MOST_COTANGENT = 50;
    /** One would leave a spike where a bell curve is round. */
    private static final int STEPS = 2;
    private static final int MOST_PASSES = 1000;
    private static final double TOLERANCE = 1e-7;

    private final int[] corners;
    /** Weight of the edge opposite to each corner, without the time. */
    private final double[] weight;
    private final int vertices;

    SurfaceHeat(TriangleMesh mesh) {
        this.corners = mesh.triangles();
        this.weight = new double[corners.length];
        this.vertices = mesh.vertexCount();
        for (int c = 0; c < corners.length; c++) {
            Vector3d p = mesh.vertex(corners[c]);
            Vector3d a = mesh.vertex(corners[EdgeTopology.next(c)]).sub(p);
            Vector3d b = mesh.vertex(corners[EdgeTopology.previous(c)]).sub(p);
            double dot = a.dot(b);
            double twice = a.cross(b).length();
            // An obtuse corner's weight would be negative, and heat could run uphill.
            weight[c] = twice > 0 ? Math.max(0, Math.min(MOST_COTANGENT, dot / twice)) / 2 : 0;
        }
    }

    /**
     * Temperatures when a point's heat has become about a bell curve of a given width. O(n) a pass, and some hundred
     * passes.
     *
     * @param mass by vertex, how much heat a degree is; may be 0 where heat only passes through
     * @param heat by vertex, at the start
     */
    double[] spread(double widthMm, double[] mass, double[] heat) {
        double time = widthMm * widthMm / 2 / STEPS;
        double[] warmth = step(time, mass, heat);
        for (int i = 1; i < STEPS; i++) {
            for (int v = 0; v < vertices; v++) {
                warmth[v] *= mass[v];
            }
            warmth = step(time, mass, warmth);
        }
        return warmth;
    }

    private double[] step(double time, double[] mass, double[] heat) {
        int n = vertices;
        double[] diagonal = mass.clone();
        for (int c = 0; c < corners.length; c++) {
            diagonal[corners[EdgeTopology.next(c)]] += time * weight[c];
            diagonal[corners[EdgeTopology.previous(c)]] += time * weight[c];
        }
        double[] warmth = new double[n];
        double[] rest = heat.clone();
        double[] way = new double[n];
        double[] pushed = new double[n];
        double first = norm(rest, diagonal);
        double before = first;
        for (int pass = 0; pass < MOST_PASSES; pass++) {
            double norm = norm(rest, diagonal);
            if (norm <= TOLERANCE * TOLERANCE * first) {
                break;
            }
            for (int v = 0; v < n; v++) {
                way[v] = (diagonal[v] > 0 ? rest[v] / diagonal[v] : 0) + norm / before * way[v];
            }
            push(time, mass, way, pushed);
            double along = 0;
            for (int v = 0; v < n; v++) {
                along += way[v] * pushed[v];
            }
            for (int v = 0; v < n; v++) {
                warmth[v] += norm / along * way[v];
                rest[v] -= norm / along * pushed[v];
            }
            before = norm;
        }
        return warmth;
    }

    private static double norm(double[] rest, double[] diagonal) {
        double norm = 0;
        for (int v = 0; v < rest.length; v++) {
            norm += diagonal[v] > 0 ? rest[v] * rest[v] / diagonal[v] : 0;
        }
        return norm;
    }

    private void push(double time, double[] mass, double[] x, double[] out) {
        for (int v = 0; v < out.length; v++) {
            out[v] = mass[v] * x[v];
        }
        for (int c = 0; c < corners.length; c++) {
            int a = corners[EdgeTopology.next(c)];
            int b = corners[EdgeTopology.previous(c)];
            double flow = time * weight[c] * (x[a] - x[b]);
            out[a] += flow;
            out[b] -= flow;
        }
    }
}
