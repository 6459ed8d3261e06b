package layupmold.geometry.offset;

import java.util.List;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Capped face and flange moved by the offset: what the release layer and the first ply will touch.
 *
 * @param mesh the moved surface, facing as the given one does
 * @param regions {@link layupmold.geometry.MoldRegion} ordinal of each triangle
 * @param outline vertices of its boundary, the surface on the left
 * @param method what made it, for people
 * @param resolutionMm grid size of the re-contoured places, or 0 where the face's own triangles were moved
 * @param worst where it is known to be off by most
 * @param findings what the stage noticed
 */
public record OffsetSurface(
        TriangleMesh mesh,
        byte[] regions,
        int[] outline,
        String method,
        double resolutionMm,
        KnownMiss worst,
        List<Finding> findings) {

    public OffsetSurface {
        findings = List.copyOf(findings);
    }
}
