package layupmold.geometry.drape;

import java.util.function.Predicate;
import java.util.stream.IntStream;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.shapes.Shapes;
import org.joml.Vector3d;

/** Open sheets for tests: a flat grid pushed through a map. */
final class Sheets {

    /** From the plane to space. */
    @FunctionalInterface
    interface Bend {
        Vector3d at(double x, double y);
    }

    private Sheets() {
    }

    /** A square of side {@code size} about the origin, bent. */
    static TriangleMesh bent(double size, int cells, Bend bend) {
        TriangleMesh flat = Shapes.sheet(size, cells);
        double[] xyz = flat.xyz().clone();
        for (int k = 0; k < xyz.length; k += 3) {
            Vector3d p = bend.at(xyz[k] - size / 2, xyz[k + 1] - size / 2);
            xyz[k] = p.x;
            xyz[k + 1] = p.y;
            xyz[k + 2] = p.z;
        }
        return new TriangleMesh(xyz, flat.triangles());
    }

    /** The same mesh without the triangles whose centroid a test refuses. */
    static TriangleMesh cut(TriangleMesh mesh, Predicate<Vector3d> keep) {
        int[] kept = IntStream.range(0, mesh.triangleCount()).filter(t -> keep.test(mesh.centroid(t)))
                .flatMap(t -> IntStream.range(3 * t, 3 * t + 3)).map(k -> mesh.triangles()[k])
                .toArray();
        return new TriangleMesh(mesh.xyz(), kept);
    }

    /** A spherical cap about the top, by the map that keeps distances from it; no triangle is slim at the pole. */
    static TriangleMesh sphere(double radius, double angleDeg, int cells) {
        double reach = radius * Math.toRadians(angleDeg);
        TriangleMesh square = bent(2 * reach, cells, (x, y) -> {
            double arc = Math.hypot(x, y) / radius;
            double turn = Math.atan2(y, x);
            return new Vector3d(Math.sin(arc) * Math.cos(turn), Math.sin(arc) * Math.sin(turn), Math.cos(arc))
                    .mul(radius);
        });
        return cut(square, p -> Math.acos(p.z / p.length()) < Math.toRadians(angleDeg));
    }
}
