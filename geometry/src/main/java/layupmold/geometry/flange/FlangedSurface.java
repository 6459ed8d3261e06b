package layupmold.geometry.flange;

import java.util.List;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Tool surface and flange in one open sheet whose triangles face out of the mold (upwards in the mold frame, but for
 * undercuts).
 *
 * @param mesh the sheet; the tool surface's vertices and triangles come first, as given
 * @param regions {@link layupmold.geometry.MoldRegion} ordinal of each triangle
 * @param outline vertices of the sheet's one boundary, counter-clockwise in plan, all at {@code planeZMm}
 * @param planeZMm height of the level border
 * @param findings what the stage noticed
 */
public record FlangedSurface(
        TriangleMesh mesh, byte[] regions, int[] outline, double planeZMm, List<Finding> findings) {

    public FlangedSurface {
        findings = List.copyOf(findings);
    }
}
