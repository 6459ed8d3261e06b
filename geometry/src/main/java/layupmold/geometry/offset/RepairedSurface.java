package layupmold.geometry.offset;

import java.util.function.IntPredicate;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.finding.Place;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.Pieces;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.offset.repair.LocalRepair;
import layupmold.geometry.simplify.TargetFit;

/**
 * A repaired surface, simplified and brought closer to the offset.
 *
 * @param from what it was made of
 * @param fit it and its misses
 * @param worst greatest miss of the tool surface that copies the face, places that refining left alone included
 * @param isSound whether it is free of crossings and in one piece with one edge
 */
record RepairedSurface(LocalRepair.Result from, TargetFit.Result fit, KnownMiss worst, boolean isSound) {

    boolean isBetterThan(RepairedSurface other) {
        return isSound != other.isSound ? isSound : worst.mm() < other.worst.mm();
    }

    static KnownMiss worst(TargetFit.Result fit) {
        return worst(fit, t -> true);
    }

    static KnownMiss worst(TargetFit.Result fit, IntPredicate asked) {
        int worst = -1;
        for (int t = 0; t < fit.labels().length; t++) {
            worst = asked.test(t) && toolMiss(fit, t) > (worst < 0 ? 0 : toolMiss(fit, worst)) ? t : worst;
        }
        return worst < 0 ? KnownMiss.NONE : new KnownMiss(toolMiss(fit, worst), Place.at(fit.mesh().centroid(worst)));
    }

    /** Of the tool surface that copies the face; caps are cut out of the laminate. */
    static double toolMiss(TargetFit.Result fit, int t) {
        return fit.labels()[t] == MoldRegion.TOOL.ordinal() ? fit.misses()[t] : 0;
    }

    static boolean isOneSheet(TriangleMesh mesh) {
        EdgeTopology edges = EdgeTopology.of(mesh);
        return edges.boundaryLoops().size() == 1 && edges.nonManifoldCount() == 0 && Pieces.count(mesh) == 1;
    }
}
