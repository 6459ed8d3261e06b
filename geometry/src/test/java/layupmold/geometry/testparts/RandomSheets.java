package layupmold.geometry.testparts;

import java.util.SplittableRandom;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Seeded random open sheets of a few hundred triangles, dished so that they release, with what offsets find hard: grooves
 * and ridges narrower than the offset, steps, bumps, noise, slivers and uneven triangles. Same seed, same bytes.
 */
public final class RandomSheets {

    private static final double LEAST_MM = 30;
    private static final double GREATEST_MM = 60;

    private RandomSheets() {
    }

    /** A sheet over a round or square plan, its front towards +z, that nowhere leans over. */
    public static TriangleMesh sheet(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        int cells = random.nextInt(8, 19);
        double size = random.nextDouble(LEAST_MM, GREATEST_MM);
        double depth = size * random.nextDouble(0.1, 0.3);
        boolean round = random.nextBoolean();
        Relief relief = Relief.random(random.split(), size);
        double shake = random.nextBoolean() ? 0 : random.nextDouble(0.35) * size / cells;
        double noise = random.nextInt(4) == 0 ? random.nextDouble(0.05) : 0;
        SplittableRandom shaker = random.split();
        int[] triangles = triangles(cells, random.split());
        // Where a round plan squeezes the square's corners, little shaking turns triangles over.
        for (double s = shake; ; s = s < size / cells / 100 ? 0 : s / 2) {
            double[] xyz = places(cells, size, depth, round, relief, s, noise, shaker.split());
            if (s == 0 || facesUp(xyz, triangles)) {
                return new TriangleMesh(xyz, triangles);
            }
        }
    }

    private static double[] places(int cells, double size, double depth, boolean round, Relief relief, double shake,
            double noise, SplittableRandom shaker) {
        int row = cells + 1;
        double[] xyz = new double[3 * row * row];
        for (int i = 0; i < row; i++) {
            for (int j = 0; j < row; j++) {
                double u = 2.0 * j / cells - 1;
                double w = 2.0 * i / cells - 1;
                double r = Math.max(Math.abs(u), Math.abs(w));
                boolean inside = r < 1 - 1e-9;
                double scale = round && r > 0 ? r / Math.hypot(u, w) : 1;
                double x = size / 2 * u * scale + (inside ? shaker.nextDouble(-1, 1) * shake / 2 : 0);
                double y = size / 2 * w * scale + (inside ? shaker.nextDouble(-1, 1) * shake / 2 : 0);
                // The perimeter is level or nearly so: relief fades out towards it.
                double fade = Math.max(0, Math.min(1, 3 * (1 - r)));
                int v = 3 * (i * row + j);
                xyz[v] = x;
                xyz[v + 1] = y;
                xyz[v + 2] = depth * r * r + fade * relief.at(x, y) + (inside ? shaker.nextDouble(-1, 1) * noise : 0);
            }
        }
        return xyz;
    }

    private static boolean facesUp(double[] xyz, int[] triangles) {
        for (int t = 0; t < triangles.length; t += 3) {
            int a = 3 * triangles[t];
            int b = 3 * triangles[t + 1];
            int c = 3 * triangles[t + 2];
            if ((xyz[b] - xyz[a]) * (xyz[c + 1] - xyz[a + 1]) <= (xyz[b + 1] - xyz[a + 1]) * (xyz[c] - xyz[a])) {
                return false;
            }
        }
        return true;
    }

    /** Each cell halved either way. */
    private static int[] triangles(int cells, SplittableRandom random) {
        int row = cells + 1;
        int[] triangles = new int[6 * cells * cells];
        int n = 0;
        for (int i = 0; i < cells; i++) {
            for (int j = 0; j < cells; j++) {
                int a = i * row + j;
                int b = a + 1;
                int c = a + row + 1;
                int d = a + row;
                int[] cell = random.nextBoolean() ? new int[] {a, b, c, a, c, d} : new int[] {a, b, d, b, c, d};
                System.arraycopy(cell, 0, triangles, n, 6);
                n += 6;
            }
        }
        return triangles;
    }

    /** Grooves or ridges with sharp edges, and smooth bumps: heights over the plan. */
    private record Relief(double[] lines, double[] bumps) {

        static Relief random(SplittableRandom random, double size) {
            double[] lines = new double[5 * random.nextInt(0, 4)];
            for (int i = 0; i < lines.length; i += 5) {
                double angle = random.nextDouble(Math.PI);
                lines[i] = Math.cos(angle);
                lines[i + 1] = Math.sin(angle);
                lines[i + 2] = random.nextDouble(-0.3, 0.3) * size;
                lines[i + 3] = random.nextDouble(0.2, 4);
                lines[i + 4] = random.nextDouble(-1.5, 1.5);
            }
            double[] bumps = new double[4 * random.nextInt(0, 4)];
            for (int i = 0; i < bumps.length; i += 4) {
                bumps[i] = random.nextDouble(-0.25, 0.25) * size;
                bumps[i + 1] = random.nextDouble(-0.25, 0.25) * size;
                bumps[i + 2] = random.nextDouble(2, 8);
                bumps[i + 3] = random.nextDouble(-2, 2);
            }
            return new Relief(lines, bumps);
        }

        double at(double x, double y) {
            double height = 0;
            for (int i = 0; i < lines.length; i += 5) {
                double away = Math.abs(lines[i] * x + lines[i + 1] * y - lines[i + 2]);
                height += lines[i + 4] * Math.max(0, 1 - away / lines[i + 3]);
            }
            for (int i = 0; i < bumps.length; i += 4) {
                double square = (x - bumps[i]) * (x - bumps[i]) + (y - bumps[i + 1]) * (y - bumps[i + 1]);
                height += bumps[i + 3] * Math.exp(-square / (bumps[i + 2] * bumps[i + 2]));
            }
            return height;
        }
    }
}
