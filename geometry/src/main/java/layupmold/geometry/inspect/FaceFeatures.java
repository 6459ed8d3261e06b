package layupmold.geometry.inspect;

import java.util.Arrays;
import java.util.function.IntPredicate;
import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.VertexTriangles;
import org.joml.Vector3d;

/**
 * Tells for a point of an open sheet whether it lies inside a triangle, on an edge or on a vertex, which way the sheet
 * faces there, and how far a mitred offset would overshoot at a corner.
 *
 * <p>The facing is the angle-weighted pseudonormal of Bærentzen and Aanæs, "Signed distance computation using the
 * angle weighted pseudonormal", 2005: its sign tells the side of the sheet for any nearest point off the boundary.
 */
final class FaceFeatures {

    private static final double ON_EDGE = 1e-7;

    private final TriangleMesh mesh;
    private final EdgeTopology topology;
    private final double[] normals;
    private final VertexTriangles around;
    private final boolean[] boundaryVertices;

    /** Cosine of half the angle by which the sheet bends at the last {@link #locate}d point; 1 where it is flat. */
    double cosine;
    /** Whether the last located point lies on the sheet's boundary. */
    boolean onBoundary;
    /** Which way the sheet faces at the last located point; not a unit vector. */
    final Vector3d facing = new Vector3d();
    /** Triangles that meet at the last located point. */
    private int[] meeting = new int[8];
    private int meetings;

    private FaceFeatures(TriangleMesh mesh, EdgeTopology topology, double[] normals, VertexTriangles around,
            boolean[] boundaryVertices) {
        this.mesh = mesh;
        this.topology = topology;
        this.normals = normals;
        this.around = around;
        this.boundaryVertices = boundaryVertices;
    }

    /** Prepares the sheet's vertices; O(n). */
    static FaceFeatures of(TriangleMesh mesh, EdgeTopology topology, double[] normals) {
        return new FaceFeatures(mesh, topology, normals, VertexTriangles.of(mesh),
                topology.borderVertices(mesh.vertexCount()));
    }

    /** The same sheet for another thread. */
    FaceFeatures fork() {
        return new FaceFeatures(mesh, topology, normals, around, boundaryVertices);
    }

    private static double cornerAngle(TriangleMesh mesh, int h) {
        Vector3d at = mesh.vertex(mesh.triangles()[h]);
        Vector3d next = mesh.vertex(mesh.triangles()[EdgeTopology.next(h)]).sub(at);
        Vector3d previous = mesh.vertex(mesh.triangles()[EdgeTopology.previous(h)]).sub(at);
        double angle = next.angle(previous);
        return Double.isNaN(angle) ? 0 : angle;
    }

    private static double dot(double[] a, int i, double[] b, int j) {
        return a[i] * b[j] + a[i + 1] * b[j + 1] + a[i + 2] * b[j + 2];
    }

    /** Finds out what the sheet is like at {@code point}, the answer of a nearest-point query on it. */
    void locate(NearestPoint point) {
        int t = point.triangle;
        double[] b = barycentric(point);
        meetings = 0;
        int zeros = (b[0] < ON_EDGE ? 1 : 0) + (b[1] < ON_EDGE ? 1 : 0) + (b[2] < ON_EDGE ? 1 : 0);
        if (zeros == 0) {
            meet(t);
            facing.set(normals[3 * t], normals[3 * t + 1], normals[3 * t + 2]);
            cosine = 1;
            onBoundary = false;
        } else if (zeros == 1) {
            // The edge opposite the corner whose weight is zero starts at the corner after it.
            locateOnEdge(b[0] < ON_EDGE ? 3 * t + 1 : b[1] < ON_EDGE ? 3 * t + 2 : 3 * t);
        } else {
            int corner = b[0] >= ON_EDGE ? 0 : b[1] >= ON_EDGE ? 1 : 2;
            locateOnVertex(mesh.triangles()[3 * t + corner]);
        }
    }

    private void locateOnEdge(int h) {
        int t = h / 3;
        meet(t);
        facing.set(normals[3 * t], normals[3 * t + 1], normals[3 * t + 2]);
        int twin = topology.twin(h);
        onBoundary = twin < 0;
        cosine = 1;
        if (!onBoundary) {
            int u = twin / 3;
            meet(u);
            cosine = Math.sqrt(Math.max(0, (1 + dot(normals, 3 * t, normals, 3 * u)) / 2));
            facing.add(normals[3 * u], normals[3 * u + 1], normals[3 * u + 2]);
        }
    }

    private void locateOnVertex(int v) {
        facing.set(0, 0, 0);
        for (int i = around.start(v); i < around.start(v + 1); i++) {
            int t = 3 * around.triangle(i);
            meet(around.triangle(i));
            int corner = mesh.triangles()[t] == v ? 0 : mesh.triangles()[t + 1] == v ? 1 : 2;
            double angle = cornerAngle(mesh, t + corner);
            facing.add(angle * normals[t], angle * normals[t + 1], angle * normals[t + 2]);
        }
        double length = facing.length();
        cosine = length > 0 ? 1 : 0;
        for (int i = around.start(v); i < around.start(v + 1) && length > 0; i++) {
            int t = 3 * around.triangle(i);
            cosine = Math.min(cosine, facing.dot(normals[t], normals[t + 1], normals[t + 2]) / length);
        }
        onBoundary = boundaryVertices[v];
    }

    private void meet(int t) {
        meeting = meetings < meeting.length ? meeting : Arrays.copyOf(meeting, 2 * meetings);
        meeting[meetings++] = t;
    }

    /** Whether all triangles that meet at the last located point are such. */
    boolean areAll(IntPredicate such) {
        for (int i = 0; i < meetings; i++) {
            if (!such.test(meeting[i])) {
                return false;
            }
        }
        return true;
    }

    /** Greatest height of the last located point moved by (x, y, z) over the planes of the triangles that meet there. */
    double height(double x, double y, double z) {
        double highest = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < meetings; i++) {
            int n = 3 * meeting[i];
            highest = Math.max(highest, normals[n] * x + normals[n + 1] * y + normals[n + 2] * z);
        }
        return highest;
    }

    private double[] barycentric(NearestPoint point) {
        Vector3d a = mesh.corner(point.triangle, 0);
        Vector3d ab = mesh.corner(point.triangle, 1).sub(a);
        Vector3d ac = mesh.corner(point.triangle, 2).sub(a);
        Vector3d ap = new Vector3d(point.x, point.y, point.z).sub(a);
        double d00 = ab.dot(ab);
        double d01 = ab.dot(ac);
        double d11 = ac.dot(ac);
        double d20 = ap.dot(ab);
        double d21 = ap.dot(ac);
        double denominator = d00 * d11 - d01 * d01;
        if (!(denominator > 0)) {
            return new double[] {1, 0, 0};
        }
        double v = (d11 * d20 - d01 * d21) / denominator;
        double w = (d00 * d21 - d01 * d20) / denominator;
        return new double[] {1 - v - w, v, w};
    }

    /** How far beyond {@code offsetMm} a mitred corner lies from the last located point, mm. */
    double mitreExcess(double offsetMm) {
        return cosine > 0 ? Math.abs(offsetMm) * (1 / cosine - 1) : Double.POSITIVE_INFINITY;
    }
}
