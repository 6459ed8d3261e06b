package layupmold.geometry.mesh.prepare;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.SplittableRandom;
import java.util.stream.IntStream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;

class PointTreeProperties {

    /** Against a look at every point; coordinates on a grid, so that many are equal. */
    @Property(tries = 1000, seed = "61")
    void findsWhatBruteForceFinds(@ForAll long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        int n = random.nextInt(300);
        int grid = 1 + random.nextInt(12);
        double[] xyz = new double[3 * n];
        for (int i = 0; i < xyz.length; i++) {
            xyz[i] = random.nextInt(grid) + (random.nextBoolean() ? 0.3 * random.nextDouble() : 0);
        }
        PointTree tree = new PointTree(xyz, IntStream.range(0, n).toArray());
        for (int query = 0; query < 10; query++) {
            double[] from = random.doubles(3, -1, grid + 1).toArray();
            double[] to = random.nextInt(4) == 0 ? from : random.doubles(3, -1, grid + 1).toArray();
            if (random.nextBoolean()) {
                to[random.nextInt(3)] = from[0];
            }
            double reach = random.nextDouble(2);
            int[] expected = IntStream.range(0, n).filter(v -> Segments.distance(xyz, v, from, to) <= reach).toArray();
            assertArrayEquals(expected, tree.near(from, to, reach, Integer.MAX_VALUE));
            assertEquals(Math.min(3, expected.length), tree.near(from, to, reach, 3).length);
        }
    }
}
