package layupmold.geometry.pull;

import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.mesh.SymmetricEigen;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Matrix3d;
import org.joml.Vector3d;

/** Axes that a symmetric part's symmetry shows in: principal axes of where its surface lies and of how it faces. */
final class PrincipalAxes {

    private PrincipalAxes() {
    }

    /**
     * Six unit axes: of the area's spread about its centroid, then of the normals. Where one set is degenerate (a
     * hemisphere faces evenly) the other is not; O(n).
     */
    static List<Vector3d> of(TriangleMesh mesh) {
        double[][] places = new double[3][3];
        double[][] normals = new double[3][3];
        Vector3d origin = mesh.vertex(0);
        Vector3d mean = new Vector3d();
        double total = 0;
        for (int t = 0; t < mesh.triangleCount(); t++) {
            Vector3d n = mesh.areaNormal(t);
            double area = n.length();
            if (area == 0) {
                continue;
            }
            total += area;
            Vector3d c = mesh.centroid(t).sub(origin);
            mean.fma(area, c);
            SymmetricEigen.addSquare(normals, n, 1 / area);
            // Exact second moment of a triangle: corners and centroid weighted 1 : 1 : 1 : 9 over 12.
            SymmetricEigen.addSquare(places, c, area * 9 / 12);
            for (int k = 0; k < 3; k++) {
                SymmetricEigen.addSquare(places, mesh.corner(t, k).sub(origin), area / 12);
            }
        }
        SymmetricEigen.addSquare(places, mean, -1 / total);
        List<Vector3d> axes = new ArrayList<>();
        for (double[][] m : List.of(places, normals)) {
            Matrix3d vectors = SymmetricEigen.vectors(m);
            for (int i = 0; i < 3; i++) {
                axes.add(vectors.getColumn(i, new Vector3d()));
            }
        }
        return axes;
    }
}
