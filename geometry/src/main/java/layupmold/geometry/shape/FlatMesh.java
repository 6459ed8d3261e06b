package layupmold.geometry.shape;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import layupmold.geometry.mesh.EdgeTopology;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.triangulate.DelaunayTriangulationBuilder;
import org.locationtech.jts.triangulate.quadedge.QuadEdgeSubdivision;
import org.locationtech.jts.triangulate.quadedge.Vertex;

/**
 * A planar domain cut into triangles: the Delaunay triangulation of loop and inner points, less what lies outside.
 *
 * <p>The first vertices are the loops' points in order (perimeter, then openings), so that meshes of one domain with
 * other inner points share their loops.
 *
 * @param uv parameters, two a vertex
 * @param triangles vertex indices, counter-clockwise
 * @param loopStarts first vertex of each loop, and after the last the number of loop vertices
 */
public record FlatMesh(double[] uv, int[] triangles, int[] loopStarts) {

    /** The triangulation's predicates round; the rare set of points that misleads them is tried again, turned. */
    private static final double[] TURNS_DEG = {0, 41, 73, 109};

    /**
     * @param domain its loops become edges of the mesh
     * @param inner further points, kept clear of the loops as {@link PointSampler} does
     * @throws IllegalStateException if a loop edge is missing because an inner point came too close
     *     <p>O(n log n).
     */
    public static FlatMesh of(PlanarDomain domain, double[] inner) {
        int[] loopStarts = new int[domain.loops().size() + 1];
        for (int i = 0; i < domain.loops().size(); i++) {
            loopStarts[i + 1] = loopStarts[i] + domain.loops().get(i).length / 2;
        }
        int loopVertices = loopStarts[loopStarts.length - 1];
        double[] uv = new double[2 * loopVertices + inner.length];
        for (int i = 0; i < domain.loops().size(); i++) {
            System.arraycopy(domain.loops().get(i), 0, uv, 2 * loopStarts[i], domain.loops().get(i).length);
        }
        System.arraycopy(inner, 0, uv, 2 * loopVertices, inner.length);
        for (int attempt = 0; attempt < TURNS_DEG.length; attempt++) {
            FlatMesh mesh = new FlatMesh(uv, triangulate(domain, uv, Math.toRadians(TURNS_DEG[attempt])), loopStarts);
            if (mesh.joinsUp() && mesh.covers(domain)) {
                return mesh;
            }
        }
        throw new IllegalStateException("an inner point lies too close to a loop");
    }

    private static int[] triangulate(PlanarDomain domain, double[] uv, double turn) {
        double cos = Math.cos(turn);
        double sin = Math.sin(turn);
        List<Coordinate> sites = new ArrayList<>();
        for (int v = 0; v < uv.length / 2; v++) {
            // The index travels in z, which the triangulation carries along untouched.
            double a = uv[2 * v];
            double b = uv[2 * v + 1];
            sites.add(new Coordinate(a * cos - b * sin, a * sin + b * cos, v));
        }
        addFarRing(sites);
        DelaunayTriangulationBuilder builder = new DelaunayTriangulationBuilder();
        builder.setSites(sites);
        QuadEdgeSubdivision subdivision = builder.getSubdivision();
        List<int[]> kept = new ArrayList<>();
        for (Object corners : subdivision.getTriangleVertices(false)) {
            keep(domain, uv, (Vertex[]) corners, kept);
        }
        int[] triangles = new int[3 * kept.size()];
        for (int t = 0; t < kept.size(); t++) {
            System.arraycopy(kept.get(t), 0, triangles, 3 * t, 3);
        }
        return triangles;
    }

    /** Points well outside, so that the hull, where the triangulation is least exact, is none of the domain's. */
    private static void addFarRing(List<Coordinate> sites) {
        Envelope box = new Envelope();
        sites.forEach(box::expandToInclude);
        Coordinate centre = box.centre();
        double radius = 2 * box.getDiameter();
        for (int i = 0; i < 12; i++) {
            double angle = 2 * Math.PI * (i + 0.3) / 12;
            sites.add(new Coordinate(centre.x + radius * Math.cos(angle), centre.y + radius * Math.sin(angle), -1));
        }
    }

    private static void keep(PlanarDomain domain, double[] uv, Vertex[] corners, List<int[]> kept) {
        int a = (int) corners[0].getZ();
        int b = (int) corners[1].getZ();
        int c = (int) corners[2].getZ();
        if (a < 0 || b < 0 || c < 0) {
            return;
        }
        double u = (uv[2 * a] + uv[2 * b] + uv[2 * c]) / 3;
        double v = (uv[2 * a + 1] + uv[2 * b + 1] + uv[2 * c + 1]) / 3;
        if (domain.contains(u, v)) {
            kept.add(twiceArea(uv, a, b, c) > 0 ? new int[] {a, b, c} : new int[] {a, c, b});
        }
    }

    private static double twiceArea(double[] uv, int a, int b, int c) {
        return (uv[2 * b] - uv[2 * a]) * (uv[2 * c + 1] - uv[2 * a + 1])
                - (uv[2 * b + 1] - uv[2 * a + 1]) * (uv[2 * c] - uv[2 * a]);
    }

    /** True if every edge has its twin but for the loops' own, which have none and are all there. */
    private boolean joinsUp() {
        Set<Long> edges = new HashSet<>();
        for (int h = 0; h < triangles.length; h++) {
            edges.add(edge(triangles[h], triangles[EdgeTopology.next(h)]));
        }
        int lonely = 0;
        for (long edge : edges) {
            lonely += edges.contains(edge << 32 | edge >>> 32) ? 0 : 1;
        }
        for (int loop = 0; loop < loopCount(); loop++) {
            for (int i = loopStarts[loop]; i < loopStarts[loop + 1]; i++) {
                if (!edges.contains(edge(i, nextOnLoop(loop, i)))) {
                    return false;
                }
            }
        }
        return edges.size() == triangles.length && lonely == loopStarts[loopCount()];
    }

    private static long edge(int from, int to) {
        return (long) from << 32 | to;
    }

    /** True if the triangles' areas add up to the domain's: no gap, no overlap. */
    private boolean covers(PlanarDomain domain) {
        double sum = 0;
        for (int t = 0; t < triangles.length; t += 3) {
            sum += twiceArea(uv, triangles[t], triangles[t + 1], triangles[t + 2]);
        }
        double whole = domain.loops().stream().mapToDouble(Outline::twiceArea).sum();
        return Math.abs(sum - whole) < 1e-9 * whole;
    }

    public int loopCount() {
        return loopStarts.length - 1;
    }

    /** The vertex after {@code vertex} on loop {@code loop}. */
    public int nextOnLoop(int loop, int vertex) {
        return vertex + 1 == loopStarts[loop + 1] ? loopStarts[loop] : vertex + 1;
    }

    /** The vertex before {@code vertex} on loop {@code loop}. */
    public int previousOnLoop(int loop, int vertex) {
        return vertex == loopStarts[loop] ? loopStarts[loop + 1] - 1 : vertex - 1;
    }

    public int vertexCount() {
        return uv.length / 2;
    }
}
