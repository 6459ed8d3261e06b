package layupmold.geometry.offset;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import layupmold.geometry.bvh.ClosestPoint;
import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.offset.repair.LocalRepair;
import layupmold.geometry.offset.repair.SurfaceFinish;
import layupmold.geometry.recipe.InspectSpec;
import layupmold.geometry.simplify.CrossingRepair;
import layupmold.geometry.simplify.Simplifier;
import layupmold.geometry.simplify.SimplifyLimits;
import layupmold.geometry.simplify.Target;
import layupmold.geometry.simplify.TargetFit;
import layupmold.geometry.simplify.TriangleMiss;
import org.joml.Vector3d;

/**
 * Makes the best of a repaired surface: simplifies it, brings it closer to the offset and contours places again that cross
 * or miss, on another and mostly finer grid each time. Where contouring makes triangles cross, these are contoured in
 * turn; if that goes on, nothing near them is from then on.
 */
final class Refining {

    /** Rebuilt vertices lie on the offset surface; their triangles may leave it by this much, well within the promise. */
    private static final SimplifyLimits SIMPLIFY = new SimplifyLimits(0.003, 0.004, 0.001);
    /** Rebuilt triangles that leave the offset by more are split. */
    private static final double FINISH_MM = 0.01;

    private static final int ATTEMPTS = 8;
    /** So many aim at the stage's own tolerance, the others only at what is promised. */
    private static final int AIMING_HIGH = 3;
    /** So many may leave crossings one after the other. */
    private static final int MOST_CROSSED = 3;
    private static final double COARSEST_MM = 0.15;
    /** What is farther off is another surface altogether: a coarser grid finds the right one in a quarter of the cells. */
    private static final double FAR_MM = 0.5;
    private static final double FAR_OFF_GRID_MM = 0.3;
    /** Each attempt's grid beside the last one's: what one grid cannot tell apart lies otherwise in the next. */
    private static final double FINER = 0.87;
    /** The same where the last one left most of the worst miss: what is missed there is smaller than its cells. */
    private static final double MUCH_FINER = 0.6;
    private static final double MOST_LEFT = 0.5;
    private static final double ENTANGLED_MM = 0.7;
    private static final int MOST_ENTANGLED = 2000;

    private final LocalRepair.Result from;
    private final byte[] regions;
    private final CoordinateLattice lattice;
    /** Where triangles kept crossing: nothing nearby is contoured again. */
    private final List<Vector3d> entangled = new ArrayList<>();
    /** What was missed there when it was left alone. */
    private KnownMiss leftAlone = KnownMiss.NONE;

    private Refining(LocalRepair.Result from, byte[] regions, CoordinateLattice lattice) {
        this.from = from;
        this.regions = regions;
        this.lattice = lattice;
    }

    /**
     * The best that comes of a repaired surface, simplified and brought closer to the offset.
     *
     * @param regions region of each triangle of the sheet that is offset
     */
    static RepairedSurface refined(LocalRepair.Result from, byte[] regions, CoordinateLattice lattice) {
        return new Refining(from, regions, lattice).refined();
    }

    private RepairedSurface refined() {
        SurfaceFinish.Result first = finish(from);
        RepairedSurface best = new RepairedSurface(from, first.fit(), RepairedSurface.worst(first.fit()),
                !crosses(first) && RepairedSurface.isOneSheet(first.fit().mesh()));
        SurfaceFinish.Result current = first;
        SurfaceFinish.Result free = crosses(first) ? null : first;
        int crossed = 0;
        double gridMm = missMm(first) > FAR_MM ? FAR_OFF_GRID_MM : COARSEST_MM;
        for (int attempt = 0; attempt < ATTEMPTS && isWanting(current, attempt); attempt++) {
            SurfaceFinish.Result better = contour(current, gridMm);
            if (better == null || !RepairedSurface.isOneSheet(better.fit().mesh())) {
                return best;
            }
            gridMm = Math.min(COARSEST_MM, gridMm * (missMm(better) > MOST_LEFT * missMm(current) ? MUCH_FINER : FINER));
            current = better;
            if (!crosses(better)) {
                free = better;
                crossed = 0;
                RepairedSurface refined = new RepairedSurface(
                        from, better.fit(), leftAlone.or(RepairedSurface.worst(better.fit())), true);
                best = refined.isBetterThan(best) ? refined : best;
            } else if (++crossed == MOST_CROSSED || better.crossing().length > MOST_ENTANGLED) {
                if (free == null) {
                    return best;
                }
                leaveAlone(better);
                current = free;
                crossed = 0;
            }
        }
        return best;
    }

    /** Simplifies what was rebuilt, frees it of crossings and brings it closer to the offset. */
    private SurfaceFinish.Result finish(LocalRepair.Result built) {
        TriangleMesh rounded =
                new TriangleMesh(lattice.round(built.mesh().xyz().clone()), built.mesh().triangles());
        Target target = built.field().target();
        TriangleMiss miss = new TriangleMiss(target);
        Simplifier.Result simplified = Simplifier.simplify(rounded, built.labels(), built.moved(), SIMPLIFY,
                (xyz, a, b, c) -> miss.worst(xyz, a, b, c, OffsetStage.TOLERANCE_MM) <= OffsetStage.TOLERANCE_MM);
        Simplifier.Result fewer = CrossingRepair.repair(simplified, target, lattice);
        return SurfaceFinish.finish(
                fewer.mesh(), fewer.labels(), fewer.fixed(), built.field(), FINISH_MM, lattice);
    }

    private static boolean isWanting(SurfaceFinish.Result surface, int attempt) {
        return crosses(surface)
                || missMm(surface) > (attempt < AIMING_HIGH ? OffsetStage.TOLERANCE_MM : InspectSpec.LEAST_TOLERANCE_MM);
    }

    /** Null if nothing could be done. */
    private SurfaceFinish.Result contour(SurfaceFinish.Result surface, double gridMm) {
        TargetFit.Result fit = surface.fit();
        boolean[] off = off(fit);
        leftAlone = leftAlone.or(RepairedSurface.worst(fit, t -> !off[t]));
        LocalRepair.Result refined = LocalRepair.refine(fit.mesh(), fit.labels(), off, surface.crossing(), regions,
                from.field(), OffsetStage.TOLERANCE_MM, gridMm);
        return refined == null ? null : finish(refined);
    }

    private void leaveAlone(SurfaceFinish.Result crossing) {
        IntStream.of(crossing.crossing()).mapToObj(crossing.fit().mesh()::centroid).forEach(entangled::add);
    }

    private static boolean crosses(SurfaceFinish.Result surface) {
        return surface.crossing().length > 0;
    }

    private static double missMm(SurfaceFinish.Result surface) {
        return RepairedSurface.worst(surface.fit()).mm();
    }

    /** Tool triangles that miss, but for those near entangled ones. */
    private boolean[] off(TargetFit.Result fit) {
        boolean[] off = new boolean[fit.labels().length];
        for (int t = 0; t < off.length; t++) {
            off[t] = RepairedSurface.toolMiss(fit, t) > OffsetStage.TOLERANCE_MM && !isEntangled(fit.mesh(), t);
        }
        return off;
    }

    private boolean isEntangled(TriangleMesh mesh, int t) {
        NearestPoint nearest = new NearestPoint();
        nearest.begin(ENTANGLED_MM);
        int[] corners = mesh.triangles();
        for (Vector3d p : entangled) {
            ClosestPoint.onTriangle(mesh.xyz(), 3 * corners[3 * t], 3 * corners[3 * t + 1], 3 * corners[3 * t + 2],
                    p.x, p.y, p.z, t, nearest);
            if (nearest.triangle >= 0) {
                return true;
            }
        }
        return false;
    }
}
