package layupmold.geometry.render;

import layupmold.geometry.mesh.CornerNormals;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.parallel.Parallel;

/** Normals a corner for shading: smooth where neighbouring triangles meet flatly, split at creases. */
final class ShadingNormals {

    private ShadingNormals() {
    }

    /** Nine numbers a triangle: unit normals of its three corners; O(n). */
    static float[] ofCorners(TriangleMesh mesh) {
        CornerNormals normals = new CornerNormals(mesh, mesh.unitNormals());
        float[] corners = new float[3 * mesh.triangles().length];
        Parallel.forRanges(mesh.triangles().length, 8192, (chunk, from, to) -> {
            double[] normal = new double[3];
            for (int c = from; c < to; c++) {
                normals.put(c, normal, 0);
                for (int k = 0; k < 3; k++) {
                    corners[3 * c + k] = (float) normal[k];
                }
            }
        });
        return corners;
    }
}
