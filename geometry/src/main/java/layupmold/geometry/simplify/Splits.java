package layupmold.geometry.simplify;

/** Gives sides and triangles a vertex where the target is. */
final class Splits {

    /** Sides shorter than this are split only if that leaves less to miss. */
    private static final double LEAST_SIDE_MM = 0.03;
    /** Nearer to an end than this share of the side's length, a crease is not worth a vertex of its own. */
    private static final double SNAP_SHARE = 0.3;
    /** Where a side is split if neither its crease nor its middle will do, as shares of its length. */
    private static final double[] SHARES = {0.5, 0.25, 0.75, 0.125, 0.875};

    /** Of what the worse triangle misses, at the most. */
    private static final double LEFT = 0.85;
    /** How far towards the target the new vertex goes: another layer may be in the way. */
    private static final double[] STEPS = {1, 0.5};

    private final FittedMesh fitted;
    private final HalfEdgeMesh mesh;
    private final TargetProbe probe;
    private final VertexMoves moves;

    Splits(FittedMesh fitted, VertexMoves moves) {
        this.fitted = fitted;
        this.mesh = fitted.mesh();
        this.probe = fitted.probe();
        this.moves = moves;
    }

    /**
     * Gives a side a vertex where it should have one: on a crease, to which a near end may go, else below where it misses
     * most.
     */
    int[] splitSide(int h) {
        int u = mesh.from(h);
        int w = mesh.to(h);
        double length = Math.sqrt(mesh.squaredLength(u, w));
        if (mesh.twin(h) < 0 || length < LEAST_SIDE_MM) {
            return FittedMesh.NOTHING;
        }
        double reach = reach(h);
        double[] crease = probe.onCrease(u, w);
        if (crease != null && probe.isNear(crease, u, w, reach) && probe.project(crease, reach)) {
            for (int end : new int[] {u, w}) {
                if (probe.isNear(crease, end, end, SNAP_SHARE * length) && moves.snap(end, crease)) {
                    return fitted.changed(moves.triangles(end));
                }
            }
            int[] done = splitSide(h, crease);
            if (done.length > 0) {
                return done;
            }
        }
        double worst = worstShare(u, w, length);
        int[] done = splitBelow(h, worst, reach);
        return done.length > 0 || worst == 0.5 ? done : splitBelow(h, 0.5, reach);
    }

    private int[] splitBelow(int h, double share, double reach) {
        double[] below = probe.between(mesh.from(h), mesh.to(h), share);
        return probe.project(below, reach) ? splitSide(h, below) : FittedMesh.NOTHING;
    }

    /** Where a side misses most, as a share of its length: what is wrong with an end shows near to it. */
    private double worstShare(int u, int w, double length) {
        double worst = fitted.toleranceMm();
        double at = 0.5;
        for (double share = 0.5; share * length > LEAST_SIDE_MM; share /= 2) {
            for (double s : new double[] {share, 1 - share}) {
                double miss = probe.miss(probe.between(u, w, s));
                if (miss > worst) {
                    worst = miss;
                    at = s;
                }
            }
        }
        return at;
    }

    private double reach(int h) {
        double most = fitted.isLabelBorder(h) ? FittedMesh.BORDER_REACH_MM : FittedMesh.REACH_MM;
        return Math.min(most, Math.sqrt(mesh.squaredLength(mesh.from(h), mesh.to(h))));
    }

    private int[] splitSide(int h, double[] p) {
        double[] front = probe.normal(new int[] {mesh.from(h), mesh.to(h), mesh.apex(h)}, 0);
        int g = mesh.twin(h);
        double[] other = probe.normal(new int[] {mesh.from(g), mesh.to(g), mesh.apex(g)}, 0);
        int v = mesh.addVertex(p[0], p[1], p[2]);
        int[] parts = halves(h, v);
        if (!probe.faces(parts, 0, front) || !probe.faces(parts, 3, front)
                || !probe.faces(parts, 6, other) || !probe.faces(parts, 9, other)) {
            mesh.dropLastVertex();
            return FittedMesh.NOTHING;
        }
        return splitIfFree(h, v, parts);
    }

    /**
     * Splits a side below one of several places, however short it is, if the worst of its triangles then misses by less.
     *
     * @param cosine least, between a new triangle's normal and its target's front
     */
    int[] splitForLess(int h, double cosine) {
        int g = mesh.twin(h);
        if (g < 0) {
            return FittedMesh.NOTHING;
        }
        FittedMesh.Budget budget = fitted.strictBudget(LEFT, h / 3, g / 3);
        for (double share : SHARES) {
            double[] side = probe.between(mesh.from(h), mesh.to(h), share);
            double[] below = side.clone();
            for (int i = 0; i < STEPS.length && probe.project(below, reach(h)); i++) {
                int[] done = splitForLess(h, probe.between(side, below, STEPS[i]), budget, cosine);
                if (done.length > 0) {
                    return done;
                }
            }
        }
        return FittedMesh.NOTHING;
    }

    private int[] splitForLess(int h, double[] p, FittedMesh.Budget budget, double cosine) {
        int v = mesh.addVertex(p[0], p[1], p[2]);
        int[] parts = halves(h, v);
        boolean faces = true;
        for (int i = 0; i < parts.length && faces; i += 3) {
            faces = probe.facesTarget(parts, i, cosine);
        }
        if (!faces || fitted.miss(parts, i -> i < 2 ? h / 3 : mesh.twin(h) / 3, budget) == Double.POSITIVE_INFINITY) {
            mesh.dropLastVertex();
            return FittedMesh.NOTHING;
        }
        return splitIfFree(h, v, parts);
    }

    /** Corners of the four halves of the triangles at a side. */
    private int[] halves(int h, int v) {
        int u = mesh.from(h);
        int w = mesh.to(h);
        int a = mesh.apex(h);
        int b = mesh.apex(mesh.twin(h));
        return new int[] {u, v, a, v, w, a, w, v, b, v, u, b};
    }

    /** Splits a side by the last vertex, or drops that. */
    private int[] splitIfFree(int h, int v, int[] parts) {
        int g = mesh.twin(h);
        if (!fitted.crossings().isFree(parts, new int[] {h / 3, g / 3})) {
            mesh.dropLastVertex();
            return FittedMesh.NOTHING;
        }
        mesh.splitEdge(h, v);
        fitted.labels().add(fitted.labels().get(h / 3), fitted.labels().get(g / 3));
        fitted.loose().set(v);
        return fitted.changed(h / 3, g / 3, mesh.triangleCount() - 2, mesh.triangleCount() - 1);
    }

    /** Gives a triangle a vertex below its middle. */
    int[] splitInside(int t) {
        int[] corners = {mesh.from(3 * t), mesh.from(3 * t + 1), mesh.from(3 * t + 2)};
        double[] p = new double[3];
        for (int i = 0; i < 9; i++) {
            p[i % 3] += mesh.xyz[3 * corners[i / 3] + i % 3] / 3;
        }
        if (!probe.project(p, FittedMesh.REACH_MM)) {
            return FittedMesh.NOTHING;
        }
        double[] front = probe.normal(corners, 0);
        int v = mesh.addVertex(p[0], p[1], p[2]);
        int[] parts = {corners[0], corners[1], v, corners[1], corners[2], v, corners[2], corners[0], v};
        if (!probe.faces(parts, 0, front) || !probe.faces(parts, 3, front) || !probe.faces(parts, 6, front)
                || !fitted.crossings().isFree(parts, new int[] {t})) {
            mesh.dropLastVertex();
            return FittedMesh.NOTHING;
        }
        mesh.splitTriangle(t, v);
        fitted.labels().add(fitted.labels().get(t), fitted.labels().get(t));
        fitted.loose().set(v);
        return fitted.changed(t, mesh.triangleCount() - 2, mesh.triangleCount() - 1);
    }
}
