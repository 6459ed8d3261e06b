package layupmold.geometry.bvh;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import java.util.stream.IntStream;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.shapes.Shapes;
import org.junit.jupiter.api.Test;

class NormalBoxesTest {

    @Test
    void noNormalBelowANodeTurnsFartherThanItsBoxSays() {
        TriangleMesh sphere = Shapes.sphere(10, 30);
        TriangleBvh bvh = TriangleBvh.of(sphere);
        double[] normals = sphere.unitNormals();
        NormalBoxes boxes = NormalBoxes.of(bvh, normals);
        SplittableRandom random = new SplittableRandom(4);
        for (int node = 0; node < 2 * bvh.leafCount - 1; node++) {
            double x = random.nextDouble() - 0.5;
            double y = random.nextDouble() - 0.5;
            double z = random.nextDouble() - 0.5;
            double least = trianglesBelow(bvh, node)
                    .mapToDouble(t -> x * normals[3 * t] + y * normals[3 * t + 1] + z * normals[3 * t + 2])
                    .min().orElseThrow();
            double said = boxes.leastAlong(node, x, y, z);
            assertTrue(said <= least + 1e-15, said + " > " + least);
            if (node >= bvh.leafCount - 1 && trianglesBelow(bvh, node).count() == 1) {
                assertEquals(least, said, 1e-6);
            }
        }
    }

    private static IntStream trianglesBelow(TriangleBvh bvh, int node) {
        int first = node;
        int last = node;
        while (first < bvh.leafCount - 1) {
            first = 2 * first + 1;
            last = 2 * last + 2;
        }
        return IntStream.range(bvh.leafStart(first - bvh.leafCount + 1), bvh.leafStart(last - bvh.leafCount + 2))
                .map(i -> bvh.order()[i]);
    }
}
