package layupmold.geometry.opening;

import java.util.List;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * The face with its openings closed.
 *
 * @param mesh the face's vertices and triangles, unchanged and first, then those of collars around openings, then those
 *     of the caps
 * @param capOfTriangle for each triangle of {@code mesh} -1 on the face, else an index into {@code caps}; collars are
 *     their cap's
 * @param trimProfile for each vertex of {@code mesh} how deep it lies in the trim groove, 0 to 1 of the depth; less
 *     than 1 at a narrowed groove's deepest
 * @param perimeter vertices of the perimeter in the order that has the face on its left
 * @param caps one an opening, in the order of the given loops
 * @param findings what to tell the maker; places are in the frame of the mesh
 */
public record CappedFace(
        TriangleMesh mesh,
        int[] capOfTriangle,
        double[] trimProfile,
        int[] perimeter,
        List<Cap> caps,
        List<Finding> findings) {
}
