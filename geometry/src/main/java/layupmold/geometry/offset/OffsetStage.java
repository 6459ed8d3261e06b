package layupmold.geometry.offset;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.finding.Severity;
import layupmold.geometry.flange.FlangedSurface;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.offset.repair.LocalRepair;
import layupmold.geometry.offset.repair.WallPleats;
import layupmold.geometry.recipe.InspectSpec;
import org.joml.Vector3d;

/**
 * Stage "offset": moves capped face and flange to where release layer and first ply will touch the tool.
 *
 * <p>Vertices move to the offset planes of their triangles, which keeps tessellation and crisp edges. Where that folds,
 * crosses itself or misses the distance, the true offset surface takes its place, simplified.
 */
public final class OffsetStage {

    private static final String STAGE = "offset";
    /** A moved surface farther than this from its distance is not let through; well within what is promised. */
    static final double TOLERANCE_MM = 0.015;
    /** Offsets smaller than this are none. */
    private static final double NOTHING_MM = 1e-6;
    private static final String AS_MOVED =
            "the face's own triangles, moved to their offset planes; sharp edges mitred";

    private OffsetStage() {
    }

    /**
     * @param surface capped face and flange
     * @param offsetMm signed offset along its front
     * @param lattice coordinates that the result may have
     * @throws Rejection if no surface can be built at this offset
     */
    public static OffsetSurface offset(FlangedSurface surface, double offsetMm, CoordinateLattice lattice) {
        TriangleMesh face = surface.mesh();
        byte[] regions = surface.regions();
        if (Math.abs(offsetMm) < NOTHING_MM) {
            return new OffsetSurface(new TriangleMesh(lattice.round(face.xyz().clone()), face.triangles()),
                    regions, surface.outline(), "the face itself: the layers add up to nothing", 0, KnownMiss.NONE,
                    List.of());
        }
        boolean inward = offsetMm < 0;
        LocalRepair repair = LocalRepair.of(inward ? face.flipped() : face, regions, Math.abs(offsetMm),
                VertexOffset.MITRE_LIMIT, TOLERANCE_MM, VertexOffset::offset, lattice);
        LocalRepair.Result moved = repair.asMoved();
        if (moved != null && moved.isAsMoved()) {
            TriangleMesh sound = inward ? moved.mesh().flipped() : moved.mesh();
            return new OffsetSurface(sound, regions, outline(sound), AS_MOVED, 0, KnownMiss.NONE, List.of());
        }
        RepairedSurface best =
                moved != null ? Refining.refined(moved, regions, lattice) : sound(repair, surface, lattice);
        WallPleats.Result smooth = WallPleats.smooth(best.fit().mesh(), best.fit().labels());
        byte[] left = new byte[smooth.labels().length];
        for (int t = 0; t < left.length; t++) {
            left[t] = (byte) smooth.labels()[t];
        }
        TriangleMesh mesh = inward ? smooth.mesh().flipped() : smooth.mesh();
        return new OffsetSurface(mesh, left, outline(mesh), method(best.from()), best.from().cellMm(),
                best.worst(), findings(best.from(), face, repair.crossedBefore()));
    }

    /** The first way whose surface keeps what is promised, else the one that comes nearest. */
    private static RepairedSurface sound(LocalRepair repair, FlangedSurface surface, CoordinateLattice lattice) {
        RepairedSurface best = null;
        for (LocalRepair.Way way : LocalRepair.Way.values()) {
            LocalRepair.Result from = repair.by(way);
            RepairedSurface made = from == null ? null : Refining.refined(from, surface.regions(), lattice);
            best = made != null && (best == null || made.isBetterThan(best)) ? made : best;
            boolean kept = best != null && best.isSound() && best.worst().mm() <= InspectSpec.LEAST_TOLERANCE_MM;
            // Where a face runs through itself its distance has no side, and no way leads anywhere.
            if (kept || repair.crossedBefore().length > 0) {
                break;
            }
        }
        if (best == null) {
            throw new Rejection(notClosed(repair, surface.mesh()));
        }
        return best;
    }

    private static Finding notClosed(LocalRepair repair, TriangleMesh face) {
        return repair.crossedBefore().length > 0 ? crossing(Severity.ERROR, face, repair.crossedBefore())
                : Finding.error(STAGE, "offset-not-closed", "The offset surface could not be closed at this place.")
                        .at(repair.place()).advising("Thinner plies need a smaller offset; else smooth the part where it is "
                                + "tighter than that.");
    }

    private static String method(LocalRepair.Result built) {
        if (built.folds() == 0) {
            return AS_MOVED + "; refined where more than three planes meet";
        }
        String trimmed = AS_MOVED + "; where that folds, cut off along the crossings";
        return built.cellMm() == 0 ? trimmed : trimmed + "; where those are entangled, the distance field contoured on a "
                + "grid of " + Math.round(built.cellMm() * 1000) / 1000.0 + " mm, sharp edges rounded";
    }

    private static Finding crossing(Severity severity, TriangleMesh face, int[] crossed) {
        return new Finding(severity, STAGE, "face-crosses-itself",
                "The face runs through itself at this place: which of its sheets the laminate copies there is a guess.",
                Place.at(face.centroid(crossed[0])), crossed.length / 2.0, 0.0, "1",
                "Cut the hidden sheet off in the model, or join the two along the line where they meet.");
    }

    private static List<Finding> findings(LocalRepair.Result built, TriangleMesh face, int[] crossed) {
        List<Finding> findings = new ArrayList<>();
        if (crossed.length > 0) {
            findings.add(crossing(Severity.WARNING, face, crossed));
        }
        if (built.folds() > 0) {
            findings.add(Finding.info(STAGE, "offset-rebuilt",
                    "Some corners are tighter than the offset: there the tool surface is where the offsets of both sides meet.")
                    .measured(built.folds(), null, "triangles").at(built.place())
                    .advising("Detail narrower than twice the offset does not survive there."));
        }
        return findings;
    }

    private static int[] outline(TriangleMesh mesh) {
        EdgeTopology edges = EdgeTopology.of(mesh);
        List<int[]> loops = edges.boundaryLoops();
        if (loops.size() != 1) {
            Vector3d place = loops.isEmpty() ? mesh.vertex(0) : mesh.vertex(edges.from(loops.get(1)[0]));
            throw new Rejection(Finding.error(STAGE, "offset-not-closed",
                    "The offset surface falls apart at this place: it has " + loops.size() + " outlines instead of one.")
                    .at(Place.at(place))
                    .advising("Thinner plies need a smaller offset; else smooth the part where it is tighter."));
        }
        return Arrays.stream(loops.get(0)).map(edges::from).toArray();
    }
}
