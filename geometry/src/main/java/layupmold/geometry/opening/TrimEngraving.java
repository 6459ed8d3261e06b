package layupmold.geometry.opening;

import layupmold.geometry.mesh.TriangleMesh;

/** Sinks the trim rings of a capped face into grooves. */
public final class TrimEngraving {

    private TrimEngraving() {
    }

    /**
     * Moves every vertex of a trim ring along the cap's normal there by the depth times {@link CappedFace#trimProfile};
     * nothing else moves. O(n).
     *
     * @param depthMm signed: positive moves along the outward normal, into the body of a female tool
     * @return a mesh with the vertices and triangles of {@code capped.mesh()}; that mesh itself without rings or depth
     */
    public static TriangleMesh engrave(CappedFace capped, double depthMm) {
        boolean hasRings = capped.caps().stream().anyMatch(cap -> !cap.trimRings().isEmpty());
        if (depthMm == 0 || !hasRings) {
            return capped.mesh();
        }
        double[] xyz = capped.mesh().xyz();
        double[] normals = capNormals(capped);
        double[] engraved = xyz.clone();
        for (int v = 0; v < capped.trimProfile().length; v++) {
            double length = Triangles.length(normals, 3 * v);
            if (capped.trimProfile()[v] > 0 && length > 0) {
                for (int k = 0; k < 3; k++) {
                    engraved[3 * v + k] += depthMm * capped.trimProfile()[v] * normals[3 * v + k] / length;
                }
            }
        }
        return new TriangleMesh(engraved, capped.mesh().triangles());
    }

    /** Area-weighted vertex normals of the caps alone. */
    private static double[] capNormals(CappedFace capped) {
        double[] xyz = capped.mesh().xyz();
        int[] triangles = capped.mesh().triangles();
        double[] normals = new double[xyz.length];
        double[] normal = new double[3];
        for (Cap cap : capped.caps()) {
            for (int t = 3 * cap.firstTriangle(); t < 3 * (cap.firstTriangle() + cap.triangleCount()); t += 3) {
                Triangles.normal(xyz, triangles[t], triangles[t + 1], triangles[t + 2], normal, 0);
                for (int i = t; i < t + 3; i++) {
                    for (int k = 0; k < 3; k++) {
                        normals[3 * triangles[i] + k] += normal[k];
                    }
                }
            }
        }
        return normals;
    }
}
