package layupmold.geometry.opening;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;

/**
 * Continues the face past openings whose edge has turned away from the tool, as a rounded rim has.
 *
 * <p>A patch right across such an edge stands square on it, and their offsets meet below the offset of the edge: the
 * last of the rim is cut off, by as much as the offset. A collar along the face's own slope puts that corner out of
 * reach, so that the edge's offset is that of a place inside a surface. Collars that would cross anything are narrowed
 * or left out.
 *
 * @param mesh the face's vertices and triangles first, then the collars'
 * @param loops boundary half-edges of each opening: the collar's end, or as it was
 * @param openingOfTriangle opening of each triangle of the collars, in their order
 * @param findings which edges were left without on purpose
 */
record Collars(TriangleMesh mesh, EdgeTopology topology, List<int[]> loops, int[] openingOfTriangle,
        List<Finding> findings) {

    /** Edges that leave their plane at less than this are continued by the patch itself. */
    private static final double STEEP_SINE = Math.sin(Math.toRadians(60));
    /** Of the width asked for, from what is tried first to none. */
    private static final double[] SHARES = {1, 0.75, 0.5, 0};
    /** The collar's end keeps at least this share of each side of the opening. */
    private static final double LEAST_SIDE = 0.3;
    private static final int PAIR_LIMIT = 10_000;

    /**
     * O(n log n), once for each width that is tried.
     *
     * @param face pull along z
     * @param loops boundary half-edges of each opening, in order, face on the left
     */
    static Collars grow(TriangleMesh face, EdgeTopology topology, List<int[]> loops, CollarSpec spec) {
        Vector3d[][] onward = new Vector3d[loops.size()][];
        int[] tried = new int[onward.length];
        List<Finding> findings = new ArrayList<>();
        for (int i = 0; i < onward.length; i++) {
            onward[i] = spec.wanted()[i] ? onward(face, topology, loops.get(i), spec.widthMm()) : null;
            double undercutMm = onward[i] != null && turnsAway(face, topology, loops.get(i), onward[i], spec.front())
                    ? EdgeUndercut.depthMm(face, topology, loops.get(i), spec) : Double.NaN;
            if (undercutMm > spec.mostUndercutMm()) {
                findings.add(leansTooFar(face, topology, loops.get(i), undercutMm, spec.mostUndercutMm()));
            }
            tried[i] = undercutMm <= spec.mostUndercutMm() ? 0 : SHARES.length - 1;
        }
        while (true) {
            Vector3d[][] collars = new Vector3d[onward.length][];
            for (int i = 0; i < onward.length; i++) {
                collars[i] = ends(face, topology, loops.get(i), onward[i], spec.widthMm(), tried, i);
            }
            Collars grown = of(face, topology, loops, collars, findings);
            boolean[] crosses = grown.crossing(face.triangleCount(), onward.length);
            boolean free = true;
            for (int i = 0; i < crosses.length; i++) {
                tried[i] += crosses[i] ? 1 : 0;
                free &= !crosses[i];
            }
            if (free) {
                return grown;
            }
        }
    }

    /** Whose collars cross anything. */
    private boolean[] crossing(int faceTriangles, int openings) {
        boolean[] crosses = new boolean[openings];
        int[] pairs = openingOfTriangle.length == 0 ? new int[0]
                : SelfIntersections.findInvolving(mesh, faceTriangles, PAIR_LIMIT);
        for (int t : pairs) {
            if (t >= faceTriangles) {
                crosses[openingOfTriangle[t - faceTriangles]] = true;
            }
        }
        return crosses;
    }

    private static Finding leansTooFar(
            TriangleMesh face, EdgeTopology topology, int[] loop, double undercutMm, double mostMm) {
        Finding finding = Finding.info(OpeningCapper.STAGE, "opening-edge-leans-back",
                "An opening's edge leans far back over the tool: copied to its end it would lock the part, so the end is "
                        + "cut off.")
                .at(OpeningLoop.of(face, topology, loop).place())
                .advising("Choose a pull along which the opening is seen squarely, or file it to size.");
        return Double.isInfinite(undercutMm) ? finding : finding.measured(undercutMm, mostMm, "mm");
    }

    /** The collar's end at each vertex of the loop, as wide as leaves it sides enough; null for no collar. */
    private static Vector3d[] ends(TriangleMesh face, EdgeTopology topology, int[] loop, Vector3d[] onward,
            double widthMm, int[] tried, int opening) {
        for (; SHARES[tried[opening]] > 0; tried[opening]++) {
            Vector3d[] ends = new Vector3d[loop.length];
            for (int i = 0; i < ends.length; i++) {
                ends[i] = face.vertex(topology.from(loop[i])).fma(SHARES[tried[opening]] * widthMm, onward[i]);
            }
            boolean keepsSides = true;
            for (int i = 0; i < ends.length; i++) {
                Vector3d side = face.vertex(topology.to(loop[i])).sub(face.vertex(topology.from(loop[i])));
                Vector3d end = new Vector3d(ends[(i + 1) % ends.length]).sub(ends[i]);
                keepsSides &= end.dot(side) >= LEAST_SIDE * side.lengthSquared();
            }
            if (keepsSides) {
                return ends;
            }
        }
        return null;
    }

    private static Collars of(TriangleMesh face, EdgeTopology topology, List<int[]> loops, Vector3d[][] ends,
            List<Finding> findings) {
        int vertices = face.vertexCount();
        int size = face.triangles().length;
        int added = Arrays.stream(ends).filter(e -> e != null).mapToInt(e -> e.length).sum();
        if (added == 0) {
            return new Collars(face, topology, loops, new int[0], findings);
        }
        double[] xyz = Arrays.copyOf(face.xyz(), 3 * (vertices + added));
        int[] triangles = Arrays.copyOf(face.triangles(), size + 6 * added);
        int[] opening = new int[2 * added];
        List<int[]> endLoops = new ArrayList<>(loops);
        for (int i = 0; i < ends.length; i++) {
            if (ends[i] == null) {
                continue;
            }
            int[] loop = loops.get(i);
            int n = loop.length;
            int[] endLoop = new int[n];
            for (int k = 0; k < n; k++) {
                int from = topology.from(loop[k]);
                int to = topology.to(loop[k]);
                int end = vertices + k;
                int next = vertices + (k + 1) % n;
                for (int c = 0; c < 3; c++) {
                    xyz[3 * end + c] = ends[i][k].get(c);
                }
                opening[(size - face.triangles().length) / 3] = i;
                opening[(size - face.triangles().length) / 3 + 1] = i;
                for (int v : new int[] {to, from, end, to, end, next}) {
                    triangles[size++] = v;
                }
                endLoop[k] = size - 2;
            }
            endLoops.set(i, endLoop);
            vertices += n;
        }
        TriangleMesh mesh = new TriangleMesh(xyz, triangles);
        return new Collars(mesh, EdgeTopology.of(mesh), endLoops, opening, findings);
    }

    /** Unit vectors along which the face goes on at each vertex of a loop, averaged over its neighbourhood. */
    private static Vector3d[] onward(TriangleMesh face, EdgeTopology topology, int[] loop, double reachMm) {
        int n = loop.length;
        Vector3d[] ofEdge = new Vector3d[n];
        double[] length = new double[n];
        for (int i = 0; i < n; i++) {
            Vector3d along = face.vertex(topology.to(loop[i])).sub(face.vertex(topology.from(loop[i])));
            length[i] = along.length();
            ofEdge[i] = along.cross(face.areaNormal(loop[i] / 3));
            double l = ofEdge[i].length();
            ofEdge[i].mul(l > 0 ? length[i] / l : 0);
        }
        Vector3d[] onward = new Vector3d[n];
        for (int i = 0; i < n; i++) {
            Vector3d sum = new Vector3d();
            double walked = 0;
            for (int k = 0; k < n && walked < reachMm; walked += length[(i + k++) % n]) {
                sum.fma(1 - walked / reachMm, ofEdge[(i + k) % n]);
            }
            walked = 0;
            for (int k = 1; k <= n && walked < reachMm; walked += length[(i + n - k++) % n]) {
                sum.fma(1 - walked / reachMm, ofEdge[(i + n - k) % n]);
            }
            onward[i] = sum.lengthSquared() > 0 ? sum.normalize() : sum;
        }
        return onward;
    }

    private static boolean turnsAway(
            TriangleMesh face, EdgeTopology topology, int[] loop, Vector3d[] onward, double front) {
        Vector3d area = new Vector3d();
        Vector3d origin = face.vertex(topology.from(loop[0]));
        Vector3d sum = new Vector3d();
        double perimeter = 0;
        for (int i = 0; i < loop.length; i++) {
            Vector3d from = face.vertex(topology.from(loop[i])).sub(origin);
            Vector3d to = face.vertex(topology.to(loop[i])).sub(origin);
            double length = from.distance(to);
            sum.fma(length, onward[i]);
            perimeter += length;
            // The face is on the left, so the loop runs clockwise around the patch's front.
            area.add(to.cross(from, new Vector3d()));
        }
        return area.lengthSquared() > 0 && -front * sum.dot(area.normalize()) >= STEEP_SINE * perimeter;
    }
}
