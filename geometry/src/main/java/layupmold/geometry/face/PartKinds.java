package layupmold.geometry.face;

import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;

/** Tells shells, sheets and solids apart by how thin the material is against the part. */
final class PartKinds {

    private static final double LEAST_PAIRED = 0.5;
    private static final double THIN_FOR_EXTENT = 0.4;
    private static final double THIN_FOR_AREA = 0.05;

    private PartKinds() {
    }

    /** A shell has mostly opposite walls near each other; otherwise an edge makes a sheet and none a solid; O(n). */
    static PartKind of(TriangleMesh mesh, EdgeTopology topology, Patches patches, WallSurvey survey, Vector3d pull) {
        double total = 0;
        double paired = 0;
        for (int p = 0; p < patches.count(); p++) {
            total += patches.area()[p];
            paired += survey.isPaired(p) ? patches.area()[p] : 0;
        }
        double depth = survey.medianDepthMm(patches);
        boolean thin = depth < THIN_FOR_EXTENT * leastExtent(mesh, pull) || depth < THIN_FOR_AREA * Math.sqrt(total / 2);
        if (paired > LEAST_PAIRED * total && thin) {
            return PartKind.CLOSED_SHELL;
        }
        return topology.boundaryCount() > 0 ? PartKind.OPEN_SHEET : PartKind.SOLID;
    }

    /** Least extent of the vertices along the pull and along the two principal directions across it, mm. */
    private static double leastExtent(TriangleMesh mesh, Vector3d pull) {
        Vector3d u = new Vector3d(Math.abs(pull.x) < 0.6 ? 1 : 0, Math.abs(pull.x) < 0.6 ? 0 : 1, 0)
                .cross(pull).normalize();
        Vector3d v = new Vector3d(pull).cross(u);
        Vector3d origin = mesh.vertex(0);
        double su = 0;
        double sv = 0;
        double suu = 0;
        double suv = 0;
        double svv = 0;
        int n = mesh.vertexCount();
        for (int i = 0; i < n; i++) {
            Vector3d x = mesh.vertex(i).sub(origin);
            double a = x.dot(u);
            double b = x.dot(v);
            su += a;
            sv += b;
            suu += a * a;
            suv += a * b;
            svv += b * b;
        }
        double angle = 0.5 * Math.atan2(2 * (suv - su * sv / n), suu - su * su / n - svv + sv * sv / n);
        Vector3d main = new Vector3d(u).mul(Math.cos(angle)).fma(Math.sin(angle), v);
        Vector3d cross = new Vector3d(pull).cross(main);
        return Math.min(extent(mesh, origin, pull), Math.min(extent(mesh, origin, main), extent(mesh, origin, cross)));
    }

    private static double extent(TriangleMesh mesh, Vector3d origin, Vector3d along) {
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < mesh.vertexCount(); i++) {
            double x = mesh.vertex(i).sub(origin).dot(along);
            low = Math.min(low, x);
            high = Math.max(high, x);
        }
        return high - low;
    }
}
