package layupmold.geometry.face;

import java.util.List;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Rejection;
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

    /**
     * @param allMm2 area of the face and of what is not face
     * @throws Rejection if the face has no boundary
     */
    static FaceResult of(FaceMesh face, PartKind kind, double allMm2, double thicknessMm, List<Finding> findings) {
        FaceLoops loops = FaceLoops.of(face.mesh(), face.topology());
        if (loops.perimeter() == null) {
            throw new Rejection(FaceFindings.noEdge(kind));
        }
        double area = face.mesh().area();
        return new FaceResult(face.mesh(), face.topology(), face.source(), kind, loops.perimeter(), loops.openings(),
                loops.perimeterMm(), area, Math.max(0, allMm2 - area), thicknessMm, List.copyOf(findings));
    }
}
