package layupmold.geometry.opening;

import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Makes one patch for one loop: triangulates, refines and fairs it, checks it against the face, and turns to a plainer
 * shape where the check fails.
 */
final class PatchShaping {

    /** A patch that passed its check; {@code wanted} is the shape tried first. */
    record Shaped(PatchMesh patch, CapShape shape, CapShape wanted) {
    }

    /** Loops within this distance of a plane are flat. */
    private static final double FLAT_MM = 0.005;
    /** A face that meets the cap's plane within this angle continues it: the cap is flat. */
    private static final double FLUSH_DEG = 1;
    /** A face that meets the cap's first shape at more than this is a wall around a hole, not a surface to continue. */
    private static final double STEEP_DEG = 60;
    /** Below this angle at the loop a patch is too shallow for its own curvature to matter. */
    private static final double SHALLOW_DEG = 15;
    private static final int ROUNDS = 2;
    private static final int CURVED_ROUNDS = 3;

    private final TriangleMesh face;
    private final OpeningLoop loop;
    private double rimDeg;

    private PatchShaping(TriangleMesh face, OpeningLoop loop) {
        this.face = face;
        this.loop = loop;
    }

    /** The best patch that passes, no better than {@code best}; null if none does. */
    static Shaped shape(TriangleMesh face, OpeningLoop loop, CapShape best) {
        return new PatchShaping(face, loop).run(best);
    }

    private Shaped run(CapShape best) {
        boolean flat = loop.flatness() <= FLAT_MM;
        List<PatchMesh> firsts = new ArrayList<>();
        if (flat) {
            addFirst(firsts, InitialPatch.projected(loop));
        }
        if (firsts.isEmpty()) {
            InitialPatch.candidates(loop).forEach(triangles -> addFirst(firsts, triangles));
        }
        if (firsts.isEmpty()) {
            return null;
        }
        rimDeg = rimAngleDeg(firsts.get(0));
        CapShape wanted = flat && (rimDeg <= FLUSH_DEG || rimDeg >= STEEP_DEG || loop.cornerCount() == 3)
                ? CapShape.PLANAR
                : rimDeg >= STEEP_DEG ? CapShape.MEMBRANE : CapShape.TANGENT;
        Shaped shaped = bestOf(firsts, wanted, best);
        if (shaped == null) {
            firsts.clear();
            addFirst(firsts, InitialPatch.clear(face, loop));
            shaped = bestOf(firsts, wanted, best);
        }
        return shaped;
    }

    private Shaped bestOf(List<PatchMesh> firsts, CapShape wanted, CapShape best) {
        for (CapShape shape : CapShape.values()) {
            if (shape.compareTo(wanted) < 0 || shape.compareTo(best) < 0) {
                continue;
            }
            for (PatchMesh first : firsts) {
                PatchMesh patch = shaped(first.copy(), shape);
                if (patch != null && PatchCheck.passes(patch, face, loop)) {
                    return new Shaped(patch, shape, wanted);
                }
            }
        }
        for (PatchMesh first : firsts) {
            // Better a cap with a fold in it, where the face itself is creased, than none.
            if (PatchCheck.isFree(first.toMesh(), face, loop)) {
                return new Shaped(first, CapShape.FACETED, wanted);
            }
        }
        return null;
    }

    private void addFirst(List<PatchMesh> firsts, int[] triangles) {
        PatchMesh patch = triangles == null ? null : PatchMesh.of(loop.xyz, triangles);
        if (patch != null) {
            firsts.add(patch);
        }
    }

    private PatchMesh shaped(PatchMesh patch, CapShape shape) {
        PatchRefinement refinement = new PatchRefinement(patch, loop);
        refinement.refine();
        boolean solved = switch (shape) {
            case PLANAR, FACETED -> true;
            case MEMBRANE -> PatchFairing.membrane(patch, face, loop);
            case TANGENT -> bendTangent(patch, refinement);
        };
        return solved ? patch : null;
    }

    private boolean bendTangent(PatchMesh patch, PatchRefinement refinement) {
        for (int round = 0; round < ROUNDS; round++) {
            if (round > 0) {
                refinement.refine();
            }
            if (!PatchFairing.tangent(patch, face, loop)) {
                return false;
            }
        }
        for (int round = 0; round < CURVED_ROUNDS && rimDeg > SHALLOW_DEG; round++) {
            refinement.refine();
            if (!PatchFairing.tangentCurved(patch, face, loop)) {
                return false;
            }
        }
        return true;
    }

    /** Mean angle between the face and a patch along the loop, weighted by length. */
    private double rimAngleDeg(PatchMesh first) {
        double sum = 0;
        double[] normal = new double[3];
        for (int h = 0; h < 3 * first.triangleCount; h++) {
            if (first.twin[h] < 0) {
                Triangles.normal(first.xyz, first.origin[h], first.destination(h), first.apex(h), normal, 0);
                double cosine = Triangles.cosine(normal, 0, loop.faceNormals, 3 * first.origin[h]);
                double angle = Math.acos(Math.max(-1, Math.min(1, cosine)));
                sum += angle * Triangles.distance(first.xyz, first.origin[h], first.destination(h));
            }
        }
        return Math.toDegrees(sum / loop.perimeter());
    }
}
