package layupmold.geometry.plug;

import java.util.Arrays;
import layupmold.geometry.bvh.RayHit;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.delaunay.ConstrainedDelaunay;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Where a plug will stand, and the tool surface that comes near.
 *
 * @param foot what it takes the place of
 * @param loop x, y, z of the foot's vertices, counter-clockwise in plan
 * @param near triangles of the tool surface that a plug could meet; the loop's vertices come first
 * @param patch the foot's triangles
 * @param top height of the plug
 * @param lattice coordinates that it may have
 */
record PlugSite(PlugFoot foot, double[] loop, TriangleMesh near, TriangleBvh patch, double top,
        CoordinateLattice lattice) {

    /** Wide enough that the wall need not follow the teeth of a ragged foot. */
    private static final double LEDGE_MM = 0.3;

    /** O(n). */
    static PlugSite of(TriangleMesh tool, PlugFoot foot, double riseMm, CoordinateLattice lattice) {
        double[] xyz = tool.xyz();
        int[] corners = tool.triangles();
        int[] vertexOf = new int[tool.vertexCount()];
        Arrays.fill(vertexOf, -1);
        int n = foot.loop().length;
        double[] near = new double[3 * n];
        double[] box = {1e300, 1e300, 1e300, -1e300, -1e300, -1e300};
        for (int i = 0; i < n; i++) {
            vertexOf[foot.loop()[i]] = i;
            for (int k = 0; k < 3; k++) {
                double x = xyz[3 * foot.loop()[i] + k];
                near[3 * i + k] = x;
                box[k] = Math.min(box[k], x);
                box[3 + k] = Math.max(box[3 + k], x);
            }
        }
        double[] loop = near.clone();
        box[5] = lattice.below(box[5] + riseMm) + lattice.stepMm();
        boolean[] isPatch = new boolean[tool.triangleCount()];
        for (int t : foot.triangles()) {
            isPatch[t] = true;
        }
        int[] triangles = new int[corners.length];
        int size = 0;
        for (int t = 0; t < isPatch.length; t++) {
            for (int i = 3 * t; !isPatch[t] && i < 3 * t + 3 && (i > 3 * t || meets(xyz, corners, t, box)); i++) {
                int v = corners[i];
                if (vertexOf[v] < 0) {
                    vertexOf[v] = n++;
                    near = 3 * n > near.length ? Arrays.copyOf(near, 2 * near.length) : near;
                    System.arraycopy(xyz, 3 * v, near, 3 * vertexOf[v], 3);
                }
                triangles[size++] = vertexOf[v];
            }
        }
        int[] taken = Arrays.stream(foot.triangles()).flatMap(t -> Arrays.stream(corners, 3 * t, 3 * t + 3)).toArray();
        return new PlugSite(foot, loop, new TriangleMesh(Arrays.copyOf(near, 3 * n), Arrays.copyOf(triangles, size)),
                TriangleBvh.of(new TriangleMesh(xyz, taken)), box[5], lattice);
    }

    private static boolean meets(double[] xyz, int[] corners, int t, double[] box) {
        for (int k = 0; k < 3; k++) {
            double a = xyz[3 * corners[3 * t] + k];
            double b = xyz[3 * corners[3 * t + 1] + k];
            double c = xyz[3 * corners[3 * t + 2] + k];
            if (Math.max(a, Math.max(b, c)) < box[k] || Math.min(a, Math.min(b, c)) > box[3 + k]) {
                return false;
            }
        }
        return true;
    }

    /**
     * A plug whose top leans in by the draft over its whole height, times {@code widened}. O(n log n).
     *
     * @param onLedge whether a ledge lies between foot and wall
     * @throws Unfit if nothing is left of the top
     */
    CorePlug join(PlanInset plan, boolean onLedge, double widened, double draftDeg) throws Unfit {
        PlanInset wallPlan = !onLedge ? plan : plan.smoothed(LEDGE_MM);
        double[] wallFoot = !onLedge ? loop : onPatch(wallPlan.corners());
        double lowest = top;
        for (int i = 2; i < wallFoot.length; i += 3) {
            lowest = Math.min(lowest, wallFoot[i]);
        }
        double inset = widened * (top - lowest) * StrictMath.tan(StrictMath.toRadians(draftDeg));
        double[] ring = level(wallPlan.ring(inset));
        int[] ledge = !onLedge ? new int[0] : between(loop, wallFoot);
        double[] own = !onLedge ? ring : joined(wallFoot, ring);
        int wallStart = !onLedge ? 0 : loop.length / 3;
        int[] wall = between(wallFoot, ring);
        double draft = PlugMeasurement.leastDraftDeg(new TriangleMesh(joined(wallFoot, ring), wall));
        int[] lid = between(ring, new double[0]);
        int[] triangles = Arrays.copyOf(ledge, ledge.length + wall.length + lid.length);
        for (int i = 0; i < wall.length; i++) {
            triangles[ledge.length + i] = wallStart + wall[i];
        }
        for (int i = 0; i < lid.length; i++) {
            triangles[ledge.length + wall.length + i] = wallStart + wallFoot.length / 3 + lid[i];
        }
        double ledgeMm2 = !onLedge ? 0 : planMm2(loop) - planMm2(wallFoot);
        return new CorePlug(foot, own, triangles, ledge.length / 3, ledgeMm2, draft);
    }

    /** Triangulates, in plan, what lies between two rings, or within one. */
    private static int[] between(double[] outer, double[] inner) {
        double[] both = joined(outer, inner);
        double[] xy = new double[both.length / 3 * 2];
        for (int i = 0; i < both.length / 3; i++) {
            xy[2 * i] = both[3 * i];
            xy[2 * i + 1] = both[3 * i + 1];
        }
        int n = outer.length / 3;
        int[] first = new int[n];
        Arrays.setAll(first, i -> i);
        int[] second = new int[inner.length / 3];
        Arrays.setAll(second, i -> n + i);
        return ConstrainedDelaunay.polygon(xy, second.length == 0 ? new int[][] {first} : new int[][] {first, second});
    }

    /** Corners in plan, at the height of what lies there now. */
    private double[] onPatch(double[] xy) throws Unfit {
        double[] ring = level(xy);
        RayHit hit = new RayHit();
        for (int i = 0; i < ring.length; i += 3) {
            patch.firstHit(ring[i], ring[i + 1], top, 0, 0, -1, 0, Double.POSITIVE_INFINITY, -1, hit);
            if (hit.triangle < 0) {
                throw new Unfit("plug-foot-not-simple", "seen along the pull, its edge crosses itself");
            }
            ring[i + 2] = lattice.round(top - hit.t);
        }
        return ring;
    }

    private double[] level(double[] xy) {
        double[] ring = new double[xy.length / 2 * 3];
        for (int i = 0; i < xy.length / 2; i++) {
            ring[3 * i] = lattice.round(xy[2 * i]);
            ring[3 * i + 1] = lattice.round(xy[2 * i + 1]);
            ring[3 * i + 2] = top;
        }
        return ring;
    }

    private static double planMm2(double[] ring) {
        double twice = 0;
        for (int i = 0, k = ring.length - 3; i < ring.length; k = i, i += 3) {
            twice += ring[k] * ring[i + 1] - ring[i] * ring[k + 1];
        }
        return twice / 2;
    }

    private static double[] joined(double[] a, double[] b) {
        double[] both = Arrays.copyOf(a, a.length + b.length);
        System.arraycopy(b, 0, both, a.length, b.length);
        return both;
    }

    /** Whether the plug crosses neither itself nor the tool surface; exact. O(n log n). */
    boolean isFree(CorePlug plug) {
        int own = near.vertexCount();
        int n = loop.length / 3;
        int first = near.triangles().length;
        int[] all = Arrays.copyOf(near.triangles(), first + plug.triangles().length);
        for (int i = 0; i < plug.triangles().length; i++) {
            int v = plug.triangles()[i];
            all[first + i] = v < n ? v : own + v - n;
        }
        TriangleMesh sheet = new TriangleMesh(joined(near.xyz(), plug.xyz()), all);
        return SelfIntersections.findInvolving(sheet, first / 3, 1).length == 0;
    }
}
