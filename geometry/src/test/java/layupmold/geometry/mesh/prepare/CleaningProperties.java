package layupmold.geometry.mesh.prepare;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.ForkJoinPool;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.PartFile;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.shapes.Soups;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;

class CleaningProperties {

    private static CleanPart clean(TriangleMesh mesh) {
        return PartCleaner.clean(new PartFile(mesh, "stl-binary", null, List.of()), Recipe.defaults());
    }

    private static VoxelSolid voxels(int n, double density, long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        boolean[] solid = new boolean[n * n * n];
        for (int cell = 0; cell < solid.length; cell++) {
            int x = cell % n;
            int y = cell / n % n;
            int z = cell / n / n;
            boolean inner = Math.min(x, Math.min(y, z)) > 0 && Math.max(x, Math.max(y, z)) < n - 1;
            solid[cell] = inner && random.nextDouble() < density;
        }
        return new VoxelSolid(n, solid);
    }

    /** Cubes that touch in edges and corners in every way: taken apart exactly as digital topology says. */
    @Property(tries = 1500, seed = "51")
    void cubesComeApartAsTheirMaterialDoes(@ForAll long seed) {
        double density = 0.2 + 0.6 * new SplittableRandom(seed).nextDouble();
        VoxelSolid solid = voxels(6, density, seed);
        int[] areas = solid.areas();
        if (areas.length == 0 || areas[0] < 0.11 * java.util.Arrays.stream(areas).sum()) {
            return;
        }
        TriangleMesh posted = Soups.scrambled(solid.mesh(), 0, seed);
        CleanPart part = clean(posted);
        Promises.check(part, posted.triangleCount());
        assertTrue(part.closed());
        assertEquals(solid.pieces(), part.counts().components());
        assertEquals(100.0 * areas[0], part.mesh().area(), 1e-6);
        if (areas.length == 1 || areas[1] < areas[0]) {
            assertEquals(1000.0 * solid.volumeOfLargest(), part.mesh().volume(), 1e-6);
        }
    }

    /** Triangles between few points of a grid: nothing fits, much repeats, lies in one plane or has no area. */
    @Property(tries = 4000, seed = "52")
    void anySoupIsCleanedOrRefused(@ForAll long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        int grid = 2 + random.nextInt(4);
        int count = 1 + random.nextInt(60);
        double[] xyz = new double[9 * count];
        int[] triangles = new int[3 * count];
        for (int i = 0; i < xyz.length; i++) {
            double noise = random.nextInt(10) == 0 ? 1e-6 * random.nextDouble() : 0;
            xyz[i] = 20 * random.nextInt(grid) + noise;
        }
        for (int i = 0; i < triangles.length; i++) {
            triangles[i] = i;
        }
        TriangleMesh posted = new TriangleMesh(xyz, triangles);
        try {
            Promises.check(clean(posted), count);
        } catch (Rejection rejection) {
            assertEquals("clean", rejection.finding().stage());
        }
    }

    @Example
    void resultDoesNotDependOnThreads() throws Exception {
        TriangleMesh posted = Soups.scrambled(voxels(40, 0.6, 7).mesh(), 0.1, 3);
        CleanPart one = new ForkJoinPool(1).submit(() -> clean(posted)).get();
        CleanPart many = new ForkJoinPool(7).submit(() -> clean(posted)).get();
        assertArrayEquals(one.mesh().xyz(), many.mesh().xyz());
        assertArrayEquals(one.mesh().triangles(), many.mesh().triangles());
        assertArrayEquals(one.postedTriangle(), many.postedTriangle());
        assertEquals(one.findings(), many.findings());
    }
}
