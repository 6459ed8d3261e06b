package layupmold.geometry.flange;

import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Capped face and flange in one open sheet whose triangles face out of the mold (upwards in the mold frame, but for
 * undercuts).
 *
 * @param mesh the sheet; the face's vertices and triangles come first, as given
 * @param regions {@link layupmold.geometry.MoldRegion} ordinal of each triangle
 * @param unmarkedSkirt x, y, z, without the trim line's mark, of the vertices that follow the face's and carry it
 * @param outline vertices of the sheet's one boundary, counter-clockwise in plan, all at one height
 * @param findings what the stage noticed
 */
public record FlangedSurface(
        TriangleMesh mesh, byte[] regions, double[] unmarkedSkirt, int[] outline, List<Finding> findings) {

    public FlangedSurface {
        findings = List.copyOf(findings);
    }

    /** Without a trim line's mark. */
    public FlangedSurface(TriangleMesh mesh, byte[] regions, int[] outline, List<Finding> findings) {
        this(mesh, regions, new double[0], outline, findings);
    }

    /** The same with one more finding. */
    FlangedSurface with(Finding finding) {
        List<Finding> more = new ArrayList<>(findings);
        more.add(finding);
        return new FlangedSurface(mesh, regions, unmarkedSkirt, outline, more);
    }
}
