package layupmold.geometry.render;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;

class CoarseMeshTest {

    @Test
    void aLightMeshStaysAsItIs() {
        TriangleMesh sphere = Shapes.sphere(10, 5, 0, 0, 0);
        assertSame(sphere, CoarseMesh.of(sphere, 10_000).mesh());
    }

    @Test
    void aHeavySphereKeepsItsShapeAndItsMap() {
        TriangleMesh sphere = Shapes.sphere(150, 50, 0, 0, 0);
        float[] height = new float[sphere.triangleCount()];
        for (int t = 0; t < height.length; t++) {
            height[t] = (float) sphere.centroid(t).z;
        }
        CoarseMesh coarse = CoarseMesh.of(sphere, 10_000);
        TriangleMesh mesh = coarse.mesh();
        assertTrue(mesh.triangleCount() <= 10_000 && mesh.triangleCount() > 4_000, "triangles " + mesh.triangleCount());
        assertEquals(4.0 / 3 * Math.PI * 125_000, mesh.volume(), 0.02 * 523_599);
        float[] values = coarse.values(height);
        for (int t = 0; t < mesh.triangleCount(); t++) {
            Vector3d middle = mesh.centroid(t);
            assertEquals(50, middle.length(), coarse.cellMm());
            assertEquals(middle.z, values[t], 2 * coarse.cellMm());
        }
    }
}
