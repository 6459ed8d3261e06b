package layupmold.geometry.shape;

import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;

/**
 * A closed, outward-facing thin shell whose triangles are all accounted for.
 *
 * @param mesh outer wall, inner wall, then rims
 * @param regions {@link ShellRegion} ordinal of each triangle
 * @param loopOfTriangle for rim triangles the loop they go around (0 = perimeter, 1.. = openings), else -1
 * @param outerLoops vertex indices of each loop on the outer wall, the wall on their left
 */
public record ThinShell(TriangleMesh mesh, byte[] regions, byte[] loopOfTriangle, List<int[]> outerLoops) {

    /**
     * What a shell is made from.
     *
     * @param surface the outer wall before its relief; its normal points outward
     * @param reliefMm displacement of the outer wall along its normal; must fade out at the loops
     * @param thicknessMm from the surface inward to the inner wall, along the normal
     * @param rim joint of the walls along every loop
     * @param outer mesh of the outer wall
     * @param inner mesh of the inner wall, over the same loops as {@code outer}
     */
    public record Plan(
            Surface surface, ScalarField reliefMm, ScalarField thicknessMm, Rim rim, FlatMesh outer, FlatMesh inner) {
    }

    /** Builds the shell; O(n). It crosses itself only if the plan does: thicker than the surface's radius, say. */
    public static ThinShell of(Plan plan) {
        FlatMesh outer = plan.outer;
        FlatMesh inner = plan.inner;
        int loopVertices = outer.loopStarts()[outer.loopCount()];
        int rimPoints = plan.rim.pointCount();
        int innerBase = outer.vertexCount();
        int rimBase = innerBase + inner.vertexCount();
        double[] xyz = new double[3 * (rimBase + loopVertices * rimPoints)];
        placeWall(plan.surface, plan.reliefMm, 1, outer, xyz, 0);
        placeWall(plan.surface, plan.thicknessMm, -1, inner, xyz, innerBase);
        placeRims(plan, xyz, innerBase, rimBase);

        int rimTriangles = 2 * loopVertices * (rimPoints + 1);
        int wallTriangles = (outer.triangles().length + inner.triangles().length) / 3;
        Assembly assembly = new Assembly(wallTriangles + rimTriangles);
        for (int t = 0; t < outer.triangles().length; t += 3) {
            int[] w = outer.triangles();
            assembly.add(w[t], w[t + 1], w[t + 2], ShellRegion.OUTER, -1);
        }
        for (int t = 0; t < inner.triangles().length; t += 3) {
            int[] w = inner.triangles();
            assembly.add(innerBase + w[t], innerBase + w[t + 2], innerBase + w[t + 1], ShellRegion.INNER, -1);
        }
        List<int[]> loops = new ArrayList<>();
        for (int loop = 0; loop < outer.loopCount(); loop++) {
            addRim(assembly, outer, loop, innerBase, rimBase, rimPoints);
            int[] vertices = new int[outer.loopStarts()[loop + 1] - outer.loopStarts()[loop]];
            for (int i = 0; i < vertices.length; i++) {
                vertices[i] = outer.loopStarts()[loop] + i;
            }
            loops.add(vertices);
        }
        return new ThinShell(new TriangleMesh(xyz, assembly.triangles), assembly.regions, assembly.loopOfTriangle,
                List.copyOf(loops));
    }

    private static void placeWall(
            Surface surface, ScalarField shiftMm, int sign, FlatMesh flat, double[] xyz, int base) {
        for (int v = 0; v < flat.vertexCount(); v++) {
            double a = flat.uv()[2 * v];
            double b = flat.uv()[2 * v + 1];
            Vector3d p = surface.at(a, b).fma(sign * shiftMm.at(a, b), surface.normal(a, b));
            put(xyz, base + v, p);
        }
    }

    private static void placeRims(Plan plan, double[] xyz, int innerBase, int rimBase) {
        FlatMesh flat = plan.outer;
        int rimPoints = plan.rim.pointCount();
        for (int loop = 0; loop < flat.loopCount(); loop++) {
            for (int v = flat.loopStarts()[loop]; v < flat.loopStarts()[loop + 1]; v++) {
                Vector3d outer = get(xyz, v);
                Vector3d through = get(xyz, innerBase + v).sub(outer);
                double thickness = through.length();
                Vector3d along = get(xyz, flat.nextOnLoop(loop, v)).sub(get(xyz, flat.previousOnLoop(loop, v)));
                Vector3d out = through.cross(along, new Vector3d()).normalize();
                for (int k = 0; k < rimPoints; k++) {
                    Vector3d p = new Vector3d(outer).fma(plan.rim.depth()[k], through)
                            .fma(plan.rim.reach()[k] * thickness, out);
                    put(xyz, rimBase + v * rimPoints + k, p);
                }
            }
        }
    }

    private static void addRim(
            Assembly assembly, FlatMesh flat, int loop, int innerBase, int rimBase, int rimPoints) {
        for (int v = flat.loopStarts()[loop]; v < flat.loopStarts()[loop + 1]; v++) {
            int w = flat.nextOnLoop(loop, v);
            for (int k = 0; k <= rimPoints; k++) {
                int v0 = k == 0 ? v : rimBase + v * rimPoints + k - 1;
                int w0 = k == 0 ? w : rimBase + w * rimPoints + k - 1;
                int v1 = k == rimPoints ? innerBase + v : rimBase + v * rimPoints + k;
                int w1 = k == rimPoints ? innerBase + w : rimBase + w * rimPoints + k;
                ShellRegion half = 2 * k < rimPoints + 1 ? ShellRegion.RIM_OUTER_HALF : ShellRegion.RIM_INNER_HALF;
                assembly.add(w0, v0, v1, half, loop);
                assembly.add(w0, v1, w1, half, loop);
            }
        }
    }

    private static void put(double[] xyz, int v, Vector3d p) {
        xyz[3 * v] = p.x;
        xyz[3 * v + 1] = p.y;
        xyz[3 * v + 2] = p.z;
    }

    private static Vector3d get(double[] xyz, int v) {
        return new Vector3d(xyz[3 * v], xyz[3 * v + 1], xyz[3 * v + 2]);
    }

    /** Triangles and their truth, filled in order. */
    private static final class Assembly {
        final int[] triangles;
        final byte[] regions;
        final byte[] loopOfTriangle;
        int count;

        Assembly(int triangleCount) {
            triangles = new int[3 * triangleCount];
            regions = new byte[triangleCount];
            loopOfTriangle = new byte[triangleCount];
        }

        void add(int a, int b, int c, ShellRegion region, int loop) {
            triangles[3 * count] = a;
            triangles[3 * count + 1] = b;
            triangles[3 * count + 2] = c;
            regions[count] = (byte) region.ordinal();
            loopOfTriangle[count] = (byte) loop;
            count++;
        }
    }
}
