package layupmold.geometry.body;

import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Point;

/** How firmly a solid stands. */
final class Standing {

    private Standing() {
    }

    /**
     * Least angle by which the solid can lean, on any edge of what its soles span, before its centre of gravity passes
     * that edge, degrees; negative if it falls over as it stands. O(n).
     *
     * @param solid closed, of one density
     * @param soles what stands on the bed, in plan
     */
    static double tipDeg(TriangleMesh solid, Geometry soles) {
        Vector3d centre = centroid(solid);
        Geometry spanned = soles.convexHull();
        Point middle = PlanArea.PLANE.createPoint(new Coordinate(centre.x, centre.y));
        double margin = spanned.getBoundary().distance(middle);
        double height = centre.z - solid.bounds()[2];
        return Math.toDegrees(Math.atan2(spanned.covers(middle) ? margin : -margin, height));
    }

    /** Centre of volume by the divergence theorem, about the first vertex to keep digits. */
    private static Vector3d centroid(TriangleMesh solid) {
        Vector3d origin = solid.vertex(solid.triangles()[0]);
        Vector3d sum = new Vector3d();
        double six = 0;
        for (int t = 0; t < solid.triangleCount(); t++) {
            Vector3d a = solid.corner(t, 0).sub(origin);
            Vector3d b = solid.corner(t, 1).sub(origin);
            Vector3d c = solid.corner(t, 2).sub(origin);
            double part = a.dot(b.cross(c, new Vector3d()));
            six += part;
            sum.fma(part / 4, a.add(b).add(c));
        }
        return sum.div(six).add(origin);
    }
}
