package layupmold.geometry.offset;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.bvh.ClosestPoint;
import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.flange.FlangedSurface;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.Pieces;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.offset.repair.LocalRepair;
import layupmold.geometry.offset.repair.OffsetField;
import layupmold.geometry.offset.repair.SurfaceFinish;
import layupmold.geometry.simplify.CrossingRepair;
import layupmold.geometry.simplify.Simplifier;
import layupmold.geometry.simplify.SimplifyLimits;
import layupmold.geometry.simplify.TargetFit;
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
    private static final double TOLERANCE_MM = 0.015;
    /** Offsets smaller than this are none. */
    private static final double NOTHING_MM = 1e-6;
    /** Rebuilt vertices lie on the offset surface; their triangles may leave it by this much, well within the promise. */
    private static final SimplifyLimits SIMPLIFY = new SimplifyLimits(0.003, 0.004, 0.001);
    /** Rebuilt triangles that leave the offset by more are split. */
    private static final double FINISH_MM = 0.01;

    private static final int REFINING_ATTEMPTS = 4;
    /** Around triangles that crossed once contoured, nothing is contoured again. */
    private static final double ENTANGLED_MM = 0.7;
    private static final int MOST_ENTANGLED = 2000;
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
                    regions, surface.outline(), "the face itself: the layers add up to nothing", 0, List.of());
        }
        boolean inward = offsetMm < 0;
        LocalRepair.Result built = LocalRepair.repair(inward ? face.flipped() : face, regions, Math.abs(offsetMm),
                VertexOffset.MITRE_LIMIT, TOLERANCE_MM, VertexOffset::offset, lattice);
        if (built.isAsMoved()) {
            TriangleMesh sound = inward ? built.mesh().flipped() : built.mesh();
            return new OffsetSurface(sound, regions, outline(sound), AS_MOVED, 0, List.of());
        }
        TargetFit.Result best = refine(finish(built, lattice).fit(), regions, built.field(), lattice);
        byte[] left = new byte[best.labels().length];
        for (int t = 0; t < left.length; t++) {
            left[t] = (byte) best.labels()[t];
        }
        TriangleMesh mesh = inward ? best.mesh().flipped() : best.mesh();
        return new OffsetSurface(mesh, left, outline(mesh), method(built), built.cellMm(), findings(built));
    }

    private static String method(LocalRepair.Result built) {
        if (built.folds() == 0) {
            return AS_MOVED + "; refined where more than three planes meet";
        }
        String trimmed = AS_MOVED + "; where that folds, cut off along the crossings";
        return built.cellMm() == 0 ? trimmed : trimmed + "; where those are entangled, the distance field contoured on a "
                + "grid of " + Math.round(built.cellMm() * 1000) / 1000.0 + " mm, sharp edges rounded";
    }

    private static List<Finding> findings(LocalRepair.Result built) {
        if (built.folds() == 0) {
            return List.of();
        }
        return List.of(Finding.info(STAGE, "offset-rebuilt",
                "Some corners are tighter than the offset: there the tool surface is where the offsets of both sides meet.")
                .measured(built.folds(), null, "triangles").at(built.place())
                .advising("Detail narrower than twice the offset does not survive there."));
    }

    /** Simplifies what was rebuilt, frees it of crossings and brings it closer to the offset. */
    private static SurfaceFinish.Result finish(LocalRepair.Result built, CoordinateLattice lattice) {
        TriangleMesh rounded =
                new TriangleMesh(lattice.round(built.mesh().xyz().clone()), built.mesh().triangles());
        Simplifier.Result fewer = CrossingRepair.repair(
                Simplifier.simplify(rounded, built.labels(), built.moved(), SIMPLIFY), built.field().target(), lattice);
        return SurfaceFinish.finish(
                fewer.mesh(), fewer.labels(), fewer.fixed(), built.field(), FINISH_MM, lattice);
    }

    /** Contours places of the tool surface that still miss, as long as that leaves it as sound as it is. */
    private static TargetFit.Result refine(
            TargetFit.Result first, byte[] regions, OffsetField field, CoordinateLattice lattice) {
        TargetFit.Result best = first;
        TargetFit.Result current = first;
        List<Vector3d> entangled = new ArrayList<>();
        int least = Integer.MAX_VALUE;
        for (int attempt = 0; attempt < REFINING_ATTEMPTS && worst(current) > TOLERANCE_MM; attempt++) {
            boolean[] off = off(current, entangled);
            int count = count(off);
            if (count >= least) {
                return best;
            }
            least = count;
            LocalRepair.Result refined =
                    LocalRepair.refine(current.mesh(), current.labels(), off, regions, field, TOLERANCE_MM);
            SurfaceFinish.Result better = refined == null ? null : finish(refined, lattice);
            if (better == null || better.crossings().size() > MOST_ENTANGLED || !isOneSheet(better.fit().mesh())) {
                return best;
            }
            entangled.addAll(better.crossings());
            if (better.crossings().isEmpty()) {
                current = better.fit();
                best = worst(current) < worst(best) ? current : best;
            }
        }
        return best;
    }

    /** Tool triangles that miss, but for those near which contouring made others cross. */
    private static boolean[] off(TargetFit.Result fit, List<Vector3d> entangled) {
        boolean[] off = new boolean[fit.labels().length];
        for (int t = 0; t < off.length; t++) {
            off[t] = toolMiss(fit, t) > TOLERANCE_MM && !isNear(fit.mesh(), t, entangled);
        }
        return off;
    }

    private static boolean isNear(TriangleMesh mesh, int t, List<Vector3d> places) {
        NearestPoint nearest = new NearestPoint();
        nearest.begin(ENTANGLED_MM);
        int[] corners = mesh.triangles();
        for (Vector3d p : places) {
            ClosestPoint.onTriangle(mesh.xyz(), 3 * corners[3 * t], 3 * corners[3 * t + 1], 3 * corners[3 * t + 2],
                    p.x, p.y, p.z, t, nearest);
            if (nearest.triangle >= 0) {
                return true;
            }
        }
        return false;
    }

    private static int count(boolean[] chosen) {
        int count = 0;
        for (boolean c : chosen) {
            count += c ? 1 : 0;
        }
        return count;
    }

    private static double worst(TargetFit.Result fit) {
        return IntStream.range(0, fit.labels().length).mapToDouble(t -> toolMiss(fit, t)).max().orElse(0);
    }

    /** Of the tool surface that copies the face; caps are cut out of the laminate. */
    private static double toolMiss(TargetFit.Result fit, int t) {
        return fit.labels()[t] == MoldRegion.TOOL.ordinal() ? fit.misses()[t] : 0;
    }

    private static boolean isOneSheet(TriangleMesh mesh) {
        EdgeTopology edges = EdgeTopology.of(mesh);
        return edges.boundaryLoops().size() == 1 && edges.nonManifoldCount() == 0 && Pieces.count(mesh) == 1;
    }

    private static int[] outline(TriangleMesh mesh) {
        EdgeTopology edges = EdgeTopology.of(mesh);
        List<int[]> loops = edges.boundaryLoops();
        if (loops.size() != 1) {
            Vector3d place = loops.isEmpty() ? mesh.vertex(0) : mesh.vertex(edges.from(loops.get(1)[0]));
            throw new Rejection(Finding.error(STAGE, "offset-not-closed",
                    "The offset surface falls apart at this place: it has " + loops.size() + " edges.")
                    .at(Place.at(place))
                    .advising("Thinner plies need a smaller offset; else smooth the part where it is tighter."));
        }
        return Arrays.stream(loops.get(0)).map(edges::from).toArray();
    }
}
