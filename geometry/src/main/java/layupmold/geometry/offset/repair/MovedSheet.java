package layupmold.geometry.offset.repair;

import java.util.Arrays;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * A skirted sheet after its vertices moved to the offset.
 *
 * @param mesh the face's triangles first, then the skirt's
 * @param faceTriangles number of the face's triangles
 * @param sides side of the seam of every vertex
 * @param turned for each of the face's triangles, whether moving it turned it over
 * @param suspect for each of the face's triangles, whether a vertex could not reach all its planes
 */
record MovedSheet(TriangleMesh mesh, int faceTriangles, byte[] sides, boolean[] turned, boolean[] suspect) {

    /** @param places the sheet's vertices at the offset, as plane fits give them; changed */
    static MovedSheet of(SkirtedSheet sheet, double[] places, OffsetField field, CoordinateLattice lattice) {
        boolean[] missed = TargetProjection.project(sheet, places, field);
        TriangleMesh mesh = new TriangleMesh(lattice.round(places), sheet.mesh().triangles());
        int[] corners = mesh.triangles();
        boolean[] turned = new boolean[sheet.faceTriangles()];
        boolean[] suspect = new boolean[sheet.faceTriangles()];
        for (int t = 0; t < turned.length; t++) {
            suspect[t] = missed[corners[3 * t]] || missed[corners[3 * t + 1]] || missed[corners[3 * t + 2]];
            turned[t] = mesh.areaNormal(t).dot(sheet.mesh().areaNormal(t)) <= 0;
        }
        return new MovedSheet(mesh, sheet.faceTriangles(), sheet.sides(), turned, suspect);
    }

    /** The face's triangles alone, over all vertices. */
    TriangleMesh face() {
        return new TriangleMesh(mesh.xyz(), Arrays.copyOf(mesh.triangles(), 3 * faceTriangles));
    }
}
