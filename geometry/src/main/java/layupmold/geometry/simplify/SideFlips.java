package layupmold.geometry.simplify;

/** Flips sides of triangles that are wrong way round for their target. */
final class SideFlips {

    private final FittedMesh fitted;
    private final HalfEdgeMesh mesh;
    private final TargetProbe probe;
    private final CollapseGuard guard;

    SideFlips(FittedMesh fitted) {
        this.fitted = fitted;
        this.mesh = fitted.mesh();
        this.probe = fitted.probe();
        this.guard = new CollapseGuard(mesh, 0);
    }

    /**
     * Flips the side of triangle {@code t} that leaves the least miss.
     *
     * @param cosine least, between a new triangle's normal and its target's front
     * @return the triangles that are changed
     */
    int[] flip(int t, double cosine) {
        int best = -1;
        double least = Double.POSITIVE_INFINITY;
        for (int h = 3 * t; h < 3 * t + 3; h++) {
            int g = mesh.twin(h);
            if (g >= 0 && !fitted.isLabelBorder(h) && guard.bend(h) > fitted.toleranceMm() && mayFlip(h, cosine)) {
                double left = fitted.miss(flipped(h), i -> t, fitted.strictBudget(FittedMesh.GAIN, t, g / 3));
                if (left < least) {
                    best = h;
                    least = left;
                }
            }
        }
        if (best < 0) {
            return FittedMesh.NOTHING;
        }
        int[] pair = {t, mesh.twin(best) / 3};
        if (!fitted.crossings().isFree(flipped(best), pair)) {
            return FittedMesh.NOTHING;
        }
        mesh.flip(best);
        return fitted.changed(pair);
    }

    /** On a ridge as narrow as its triangles, what is right may face far from what is there. */
    private boolean mayFlip(int h, double cosine) {
        if (guard.allowsCreaseFlip(h)) {
            return true;
        }
        int[] corners = flipped(h);
        return guard.mayBeJoined(corners[1], corners[2])
                && probe.facesTarget(corners, 0, cosine) && probe.facesTarget(corners, 3, cosine);
    }

    /** Corners of the two triangles that a flip would leave. */
    private int[] flipped(int h) {
        int a = mesh.apex(h);
        int b = mesh.apex(mesh.twin(h));
        return new int[] {mesh.from(h), b, a, mesh.to(h), a, b};
    }
}
