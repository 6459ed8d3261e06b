package layupmold.geometry.mesh.io;

import java.util.List;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.LengthUnit;

/**
 * A mesh as a file gave it: not welded, not cleaned, in the file's own numbers.
 *
 * @param mesh triangles in file order; polygons are triangulated, build items and components placed
 * @param format "stl-binary", "stl-ascii", "obj", "ply-ascii", "ply-binary" or "3mf"
 * @param unit the file's own unit, or null where the format has none
 * @param findings what the reader noticed
 */
public record PartFile(TriangleMesh mesh, String format, LengthUnit unit, List<Finding> findings) {

    public PartFile {
        findings = List.copyOf(findings);
    }
}
