package layupmold.geometry.bvh;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.shapes.Shapes;
import layupmold.geometry.testparts.RandomSheets;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class NeighbourhoodTest {

    private static final int PLACES = 200;
    private static final int QUESTIONS = 50;

    private final NearestPoint near = new NearestPoint();
    private final NearestPoint far = new NearestPoint();

    /** To the last bit, and the same one of several triangles that are as near. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void answersAsTheTreeDoes(long seed) {
        TriangleMesh sheet = RandomSheets.sheet(seed);
        TriangleBvh bvh = TriangleBvh.of(sheet);
        Neighbourhood neighbourhood = new Neighbourhood(bvh);
        SplittableRandom random = new SplittableRandom(seed);
        for (int i = 0; i < PLACES; i++) {
            Vector3d place = sheet.vertex(random.nextInt(sheet.vertexCount())).add(within(1, random));
            double reach = random.nextDouble(0.01, 0.5);
            neighbourhood.gather(place.x, place.y, place.z, reach, 0.5);
            for (int k = 0; k < QUESTIONS; k++) {
                Vector3d p = within(reach, random).add(place);
                assertTrue(neighbourhood.covers(p.x, p.y, p.z));
                neighbourhood.nearest(p.x, p.y, p.z, near);
                bvh.nearest(p.x, p.y, p.z, Double.POSITIVE_INFINITY, far);
                assertEquals(far.triangle, near.triangle);
                assertEquals(far.distanceSquared, near.distanceSquared);
                assertEquals(new Vector3d(far.x, far.y, far.z), new Vector3d(near.x, near.y, near.z));
            }
        }
    }

    private static Vector3d within(double reach, SplittableRandom random) {
        Vector3d d = new Vector3d(random.nextDouble() - 0.5, random.nextDouble() - 0.5, random.nextDouble() - 0.5);
        return d.normalize(reach * random.nextDouble());
    }

    @Test
    void coversNothingBeyondItsReach() {
        Neighbourhood neighbourhood = new Neighbourhood(TriangleBvh.of(RandomSheets.sheet(1)));
        neighbourhood.gather(0, 0, 10, 0.5, 1);
        assertFalse(neighbourhood.covers(0, 0.51, 10));
    }

    /** From the middle of a sphere every triangle may be the nearest. */
    @Test
    void coversNothingWhereTooMuchIsNear() {
        Neighbourhood neighbourhood = new Neighbourhood(TriangleBvh.of(Shapes.sphere(10, 60)));
        neighbourhood.gather(0, 0, 0, 0.5, 1);
        assertFalse(neighbourhood.covers(0, 0, 0));
        neighbourhood.gather(9, 0, 0, 0.1, 1);
        assertTrue(neighbourhood.covers(9, 0, 0));
    }
}
