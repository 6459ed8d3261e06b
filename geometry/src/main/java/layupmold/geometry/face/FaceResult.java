package layupmold.geometry.face;

import java.util.List;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * The kept front surface: one connected, oriented two-manifold with at least one boundary loop.
 *
 * @param mesh the face with its own vertex numbering; triangles front outward
 * @param topology half-edges of {@code mesh}
 * @param sourceTriangle the input triangle that each face triangle is, or is a piece of
 * @param kind what the part was taken for
 * @param perimeter outer boundary as half-edges of {@code topology}, the face on their left
 * @param openings the other boundary loops, longest first
 * @param perimeterMm length of the perimeter
 * @param areaMm2 area of the face
 * @param removedAreaMm2 area of back wall and rim
 * @param thicknessMm typical wall thickness (area-weighted median), NaN for an open sheet
 * @param findings what was doubtful, and where
 */
public record FaceResult(
        TriangleMesh mesh,
        EdgeTopology topology,
        int[] sourceTriangle,
        PartKind kind,
        int[] perimeter,
        List<int[]> openings,
        double perimeterMm,
        double areaMm2,
        double removedAreaMm2,
        double thicknessMm,
        List<Finding> findings) {
}
