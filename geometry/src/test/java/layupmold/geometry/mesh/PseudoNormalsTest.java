package layupmold.geometry.mesh;

import static org.junit.jupiter.api.Assertions.assertEquals;

import layupmold.geometry.shapes.Soups;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;

class PseudoNormalsTest {

    /** Each face meets a box's corner at π/2, whether a diagonal halves it there or not. */
    @Test
    void aBoxsCornersLookAlongAllThreeFacesAlike() {
        TriangleMesh box = Soups.box(30, 20, 10);
        double[] normals = PseudoNormals.atVertices(box, box.unitNormals(), VertexTriangles.of(box));
        double[] bounds = box.bounds();
        Vector3d middle = new Vector3d(bounds[0] + bounds[3], bounds[1] + bounds[4], bounds[2] + bounds[5]).div(2);
        for (int v = 0; v < box.vertexCount(); v++) {
            Vector3d outward = box.vertex(v).sub(middle);
            for (int axis = 0; axis < 3; axis++) {
                assertEquals(Math.copySign(Math.PI / 2, outward.get(axis)), normals[3 * v + axis], 1e-12);
            }
        }
    }
}
