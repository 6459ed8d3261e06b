package layupmold.geometry.offset;

import java.util.Arrays;
import java.util.List;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.offset.repair.LocalRepair;
import layupmold.geometry.offset.repair.SurfaceFinish;
import layupmold.geometry.simplify.CrossingRepair;
import layupmold.geometry.simplify.Simplifier;
import layupmold.geometry.simplify.SimplifyLimits;
import org.joml.Vector3d;

/**
 * Stage "offset": moves the capped face to where release layer and first ply will touch the tool.
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
    private static final double FINISH_MM = 0.007;

    private OffsetStage() {
    }

    /**
     * @param face capped face, facing outward
     * @param capOfTriangle for each triangle -1 on the face, else the index of its cap
     * @param perimeter vertices of its one boundary loop, the face on the left
     * @param offsetMm signed offset along the outward normal
     * @param lattice coordinates that the result may have
     * @throws Rejection if no surface can be built at this offset
     */
    public static OffsetSurface offset(
            TriangleMesh face, int[] capOfTriangle, int[] perimeter, double offsetMm, CoordinateLattice lattice) {
        if (Math.abs(offsetMm) < NOTHING_MM) {
            return new OffsetSurface(new TriangleMesh(lattice.round(face.xyz().clone()), face.triangles()),
                    capOfTriangle, perimeter, "the face itself: the layers add up to nothing", 0, List.of());
        }
        boolean inward = offsetMm < 0;
        LocalRepair.Result built = LocalRepair.repair(inward ? face.flipped() : face,
                inward ? reversed(perimeter) : perimeter, Math.abs(offsetMm), VertexOffset.MITRE_LIMIT, TOLERANCE_MM,
                VertexOffset::offset, lattice);
        if (built.cellMm() == 0) {
            TriangleMesh sound = inward ? built.mesh().flipped() : built.mesh();
            return new OffsetSurface(sound, caps(built, capOfTriangle), perimeter(sound),
                    "the face's own triangles, moved to their offset planes; sharp edges mitred", 0, List.of());
        }
        Simplifier.Result fewer = CrossingRepair.repair(simplify(built, capOfTriangle, lattice));
        SurfaceFinish.Result finished = SurfaceFinish.finish(
                fewer.mesh(), fewer.labels(), fewer.fixed(), built.field(), FINISH_MM, lattice);
        int[] caps = Arrays.stream(finished.source()).map(t -> fewer.labels()[t]).toArray();
        TriangleMesh mesh = inward ? finished.mesh().flipped() : finished.mesh();
        Finding finding = Finding.info(STAGE, "offset-rebuilt",
                "Some corners are tighter than the offset: there the tool surface was rebuilt from distances.")
                .measured(built.cellMm(), null, "mm").at(built.place())
                .advising("Detail narrower than twice the offset does not survive there.");
        return new OffsetSurface(mesh, caps, perimeter(mesh),
                "the face's own triangles, moved to their offset planes, sharp edges mitred; where that folds, the "
                        + "distance field contoured on a grid of " + Math.round(built.cellMm() * 1000) / 1000.0
                        + " mm, sharp edges rounded",
                built.cellMm(), List.of(finding));
    }

    private static Simplifier.Result simplify(
            LocalRepair.Result built, int[] capOfTriangle, CoordinateLattice lattice) {
        TriangleMesh rounded =
                new TriangleMesh(lattice.round(built.mesh().xyz().clone()), built.mesh().triangles());
        return Simplifier.simplify(rounded, caps(built, capOfTriangle), built.moved(), SIMPLIFY);
    }

    private static int[] caps(LocalRepair.Result built, int[] capOfTriangle) {
        return Arrays.stream(built.sourceTriangle()).map(source -> source < 0 ? -1 : capOfTriangle[source]).toArray();
    }

    private static int[] perimeter(TriangleMesh mesh) {
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

    private static int[] reversed(int[] ring) {
        int[] reversed = new int[ring.length];
        for (int i = 0; i < ring.length; i++) {
            reversed[i] = ring[ring.length - 1 - i];
        }
        return reversed;
    }
}
