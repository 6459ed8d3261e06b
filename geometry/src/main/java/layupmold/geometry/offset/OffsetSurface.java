package layupmold.geometry.offset;

import java.util.List;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * The capped face moved by the offset.
 *
 * @param mesh the moved surface, facing as the face does
 * @param capOfTriangle for each triangle -1 on the face, else the index of its cap
 * @param perimeter vertices of its perimeter, the surface on the left
 * @param method what made it, for people
 * @param resolutionMm grid size of the re-contoured places, or 0 where the face's own triangles were moved
 * @param findings what the stage noticed
 */
public record OffsetSurface(
        TriangleMesh mesh,
        int[] capOfTriangle,
        int[] perimeter,
        String method,
        double resolutionMm,
        List<Finding> findings) {

    public OffsetSurface {
        findings = List.copyOf(findings);
    }
}
