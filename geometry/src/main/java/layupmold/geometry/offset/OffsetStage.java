package layupmold.geometry.offset;

import java.util.List;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.offset.repair.LocalRepair;

/**
 * Stage "offset": moves the capped face to where release layer and first ply will touch the tool.
 *
 * <p>Vertices move to the offset planes of their triangles, which keeps tessellation and crisp edges. Where that folds,
 * crosses itself or misses the distance, the true offset surface takes its place.
 */
public final class OffsetStage {

    /** A moved vertex farther than this from its distance is not let through; half of what is promised. */
    private static final double TOLERANCE_MM = 0.01;
    /** Offsets smaller than this are none. */
    private static final double NOTHING_MM = 1e-6;

    private OffsetStage() {
    }

    /**
     * @param face capped face, facing outward
     * @param capOfTriangle for each triangle -1 on the face, else the index of its cap
     * @param perimeter vertices of its one boundary loop, the face on the left
     * @param offsetMm signed offset along the outward normal
     * @throws layupmold.geometry.finding.Rejection if no surface can be built at this offset
     */
    public static OffsetSurface offset(TriangleMesh face, int[] capOfTriangle, int[] perimeter, double offsetMm) {
        if (Math.abs(offsetMm) < NOTHING_MM) {
            return new OffsetSurface(face, capOfTriangle, perimeter, "the face itself: the layers add up to nothing",
                    0, List.of());
        }
        boolean inward = offsetMm < 0;
        TriangleMesh facing = inward ? face.flipped() : face;
        LocalRepair.Result repaired = LocalRepair.repair(facing, inward ? reversed(perimeter) : perimeter,
                Math.abs(offsetMm), VertexOffset.MITRE_LIMIT, TOLERANCE_MM, VertexOffset::offset);
        if (repaired == null) {
            double[] moved = VertexOffset.offset(face, offsetMm);
            return new OffsetSurface(new TriangleMesh(moved, face.triangles()), capOfTriangle, perimeter,
                    "the face's own triangles, moved to their offset planes; sharp edges mitred", 0, List.of());
        }
        int[] caps = new int[repaired.sourceTriangle().length];
        for (int t = 0; t < caps.length; t++) {
            int source = repaired.sourceTriangle()[t];
            caps[t] = source < 0 ? -1 : capOfTriangle[source];
        }
        Finding finding = Finding.info("offset", "offset-rebuilt",
                "Some corners are tighter than the offset: there the tool surface was rebuilt from distances.")
                .measured(repaired.cellMm(), null, "mm").at(repaired.place())
                .advising("Detail narrower than twice the offset does not survive there.");
        return new OffsetSurface(
                inward ? repaired.mesh().flipped() : repaired.mesh(), caps,
                inward ? reversed(repaired.perimeter()) : repaired.perimeter(),
                "the face's own triangles, moved to their offset planes; where that folds, the distance field contoured "
                        + "on a grid of " + Math.round(repaired.cellMm() * 1000) / 1000.0 + " mm; sharp edges mitred",
                repaired.cellMm(), List.of(finding));
    }

    private static int[] reversed(int[] ring) {
        int[] reversed = new int[ring.length];
        for (int i = 0; i < ring.length; i++) {
            reversed[i] = ring[ring.length - 1 - i];
        }
        return reversed;
    }
}
