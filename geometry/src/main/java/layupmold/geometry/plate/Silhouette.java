package layupmold.geometry.plate;

import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.mesh.TriangleMesh;
import org.locationtech.jts.algorithm.ConvexHull;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.operation.overlayng.OverlayNGRobust;

/** What a solid covers of the bed, seen from above. */
public final class Silhouette {

    /** More triangles than this that look down are not joined one by one; the hull covers them too. */
    private static final int MOST_JOINED = 20_000;
    private static final GeometryFactory FACTORY = new GeometryFactory();

    private Silhouette() {
    }

    /**
     * The union of the triangles that look down, which covers all others of a closed solid; without its holes. Where that
     * is in several pieces or too fine to join, the convex hull, which covers more. mm.
     */
    public static Polygon of(TriangleMesh solid) {
        List<Geometry> down = new ArrayList<>();
        for (int t = 0; t < solid.triangleCount() && down.size() <= MOST_JOINED; t++) {
            if (solid.areaNormal(t).z < 0) {
                Coordinate a = at(solid, 3 * t);
                down.add(FACTORY.createPolygon(
                        new Coordinate[] {a, at(solid, 3 * t + 1), at(solid, 3 * t + 2), a.copy()}));
            }
        }
        if (!down.isEmpty() && down.size() <= MOST_JOINED
                && OverlayNGRobust.union(down) instanceof Polygon outline && !outline.isEmpty()) {
            return FACTORY.createPolygon(outline.getExteriorRing().getCoordinateSequence());
        }
        return hull(solid);
    }

    /** The convex hull of all its vertices in plan, mm; O(n log n). */
    public static Polygon hull(TriangleMesh solid) {
        Coordinate[] points = new Coordinate[solid.vertexCount()];
        for (int v = 0; v < points.length; v++) {
            points[v] = new Coordinate(solid.xyz()[3 * v], solid.xyz()[3 * v + 1]);
        }
        if (new ConvexHull(points, FACTORY).getConvexHull() instanceof Polygon polygon) {
            return polygon;
        }
        throw new IllegalArgumentException("the solid covers no area");
    }

    private static Coordinate at(TriangleMesh solid, int corner) {
        int v = 3 * solid.triangles()[corner];
        return new Coordinate(solid.xyz()[v], solid.xyz()[v + 1]);
    }
}
