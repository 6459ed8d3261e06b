package layupmold.geometry.offset;

import java.util.ArrayList;
import java.util.List;
import java.util.function.IntPredicate;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.bvh.ClosestPoint;
import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.finding.Place;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.Pieces;
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
 * A repaired surface, simplified, brought closer to the offset, and contoured more finely where it still misses.
 *
 * @param from what it was made of
 * @param fit it and its misses
 * @param worst greatest miss of the tool surface that copies the face, places that refining left alone included
 * @param isSound whether it is free of crossings and in one piece with one edge
 */
record RepairedSurface(LocalRepair.Result from, TargetFit.Result fit, KnownMiss worst, boolean isSound) {

    /** Rebuilt vertices lie on the offset surface; their triangles may leave it by this much, well within the promise. */
    private static final SimplifyLimits SIMPLIFY = new SimplifyLimits(0.003, 0.004, 0.001);
    /** Rebuilt triangles that leave the offset by more are split. */
    private static final double FINISH_MM = 0.01;

    private static final int REFINING_ATTEMPTS = 8;
    /** So many aim at this stage's own tolerance, the others only at what is promised. */
    private static final int AIMING_HIGH = 3;
    /** Grid for places that miss although they are sound. */
    private static final double REFINING_MM = 0.15;
    /** Each attempt's grid beside the last one's: what one grid cannot tell apart lies otherwise in the next. */
    private static final double FINER = 0.87;
    /** The same where the last one left most of the worst miss: what is missed there is smaller than its cells. */
    private static final double MUCH_FINER = 0.6;
    private static final double MOST_LEFT = 0.5;
    /** Around triangles that crossed once contoured, nothing is contoured again. */
    private static final double ENTANGLED_MM = 0.7;
    private static final int MOST_ENTANGLED = 2000;

    static RepairedSurface of(LocalRepair.Result from, byte[] regions, CoordinateLattice lattice) {
        return refine(from, finish(from, lattice), regions, lattice);
    }

    boolean isBetterThan(RepairedSurface other) {
        return isSound != other.isSound ? isSound : worst.mm() < other.worst.mm();
    }

    /** Simplifies what was rebuilt, frees it of crossings and brings it closer to the offset. */
    private static SurfaceFinish.Result finish(LocalRepair.Result built, CoordinateLattice lattice) {
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

    /** Contours places of the tool surface that still miss, as long as that leaves it as sound as it is. */
    private static RepairedSurface refine(
            LocalRepair.Result from, SurfaceFinish.Result first, byte[] regions, CoordinateLattice lattice) {
        RepairedSurface best = new RepairedSurface(
                from, first.fit(), worst(first.fit()), first.crossings().isEmpty() && isOneSheet(first.fit().mesh()));
        TargetFit.Result current = first.fit();
        List<Vector3d> entangled = new ArrayList<>();
        KnownMiss leftAlone = KnownMiss.NONE;
        double gridMm = REFINING_MM;
        for (int attempt = 0; attempt < REFINING_ATTEMPTS && worst(current).mm() > enough(attempt); attempt++) {
            boolean[] off = off(current, entangled);
            leftAlone = leftAlone.or(worst(current, t -> !off[t]));
            LocalRepair.Result refined = LocalRepair.refine(
                    current.mesh(), current.labels(), off, regions, from.field(), OffsetStage.TOLERANCE_MM, gridMm);
            SurfaceFinish.Result better = refined == null ? null : finish(refined, lattice);
            if (better == null || better.crossings().size() > MOST_ENTANGLED || !isOneSheet(better.fit().mesh())) {
                return best;
            }
            entangled.addAll(better.crossings());
            gridMm *= worst(better.fit()).mm() > MOST_LEFT * worst(current).mm() ? MUCH_FINER : FINER;
            if (better.crossings().isEmpty()) {
                current = better.fit();
                RepairedSurface refinement =
                        new RepairedSurface(from, current, leftAlone.or(worst(current)), true);
                best = refinement.isBetterThan(best) ? refinement : best;
            }
        }
        return best;
    }

    private static double enough(int attempt) {
        return attempt < AIMING_HIGH ? OffsetStage.TOLERANCE_MM : InspectSpec.LEAST_TOLERANCE_MM;
    }

    /** Tool triangles that miss, but for those near which contouring made others cross. */
    private static boolean[] off(TargetFit.Result fit, List<Vector3d> entangled) {
        boolean[] off = new boolean[fit.labels().length];
        for (int t = 0; t < off.length; t++) {
            off[t] = toolMiss(fit, t) > OffsetStage.TOLERANCE_MM && !isNear(fit.mesh(), t, entangled);
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

    private static KnownMiss worst(TargetFit.Result fit) {
        return worst(fit, t -> true);
    }

    private static KnownMiss worst(TargetFit.Result fit, IntPredicate asked) {
        int worst = -1;
        for (int t = 0; t < fit.labels().length; t++) {
            worst = asked.test(t) && toolMiss(fit, t) > (worst < 0 ? 0 : toolMiss(fit, worst)) ? t : worst;
        }
        return worst < 0 ? KnownMiss.NONE : new KnownMiss(toolMiss(fit, worst), Place.at(fit.mesh().centroid(worst)));
    }

    /** Of the tool surface that copies the face; caps are cut out of the laminate. */
    private static double toolMiss(TargetFit.Result fit, int t) {
        return fit.labels()[t] == MoldRegion.TOOL.ordinal() ? fit.misses()[t] : 0;
    }

    private static boolean isOneSheet(TriangleMesh mesh) {
        EdgeTopology edges = EdgeTopology.of(mesh);
        return edges.boundaryLoops().size() == 1 && edges.nonManifoldCount() == 0 && Pieces.count(mesh) == 1;
    }
}
