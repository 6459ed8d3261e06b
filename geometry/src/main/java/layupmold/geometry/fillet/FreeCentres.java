package layupmold.geometry.fillet;

import java.util.stream.IntStream;
import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Centres of free balls, and which of them is nearest to a point. Points are triangles without extent in a hierarchy.
 */
final class FreeCentres {

    private final double[] xyz;
    private final TriangleBvh tree;

    /** @param xyz three numbers a centre */
    FreeCentres(double[] xyz) {
        this.xyz = xyz;
        this.tree = TriangleBvh.of(new TriangleMesh(xyz, IntStream.range(0, xyz.length).map(i -> i / 3).toArray()));
    }

    double at(int centre, int k) {
        return xyz[3 * centre + k];
    }

    /** The centre nearest to a point; -1 if there is none. */
    int nearest(double x, double y, double z, NearestPoint answer) {
        tree.nearest(x, y, z, Double.POSITIVE_INFINITY, answer);
        return answer.triangle;
    }
}
