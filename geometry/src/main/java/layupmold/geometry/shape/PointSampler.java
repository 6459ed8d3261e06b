package layupmold.geometry.shape;

import java.util.Arrays;
import java.util.SplittableRandom;

/**
 * Collects the inner points of a domain before {@link FlatMesh} joins them: points asked for, then a graded fill whose
 * spacing follows a size field. Points much closer to a loop than its own points are to each other are refused: they
 * would make needles along the loop.
 */
public final class PointSampler {

    private static final double LOOP_CLEARANCE = 0.75;
    private static final double FILL_CLEARANCE = 0.72;

    private final PlanarDomain domain;
    private final double loopSpacingMm;
    private final double cellMm;
    private final java.util.HashMap<Long, int[]> cells = new java.util.HashMap<>();
    private double[] points = new double[1024];
    private int size;

    /**
     * @param domain where points may lie
     * @param leastSpacingMm finest spacing in use, sizes the search grid
     */
    public PointSampler(PlanarDomain domain, double leastSpacingMm) {
        this.domain = domain;
        this.cellMm = leastSpacingMm;
        double longest = 0;
        for (double[] loop : domain.loops()) {
            int n = loop.length / 2;
            for (int i = 0; i < n; i++) {
                int j = (i + 1) % n;
                longest = Math.max(longest,
                        StrictMath.hypot(loop[2 * j] - loop[2 * i], loop[2 * j + 1] - loop[2 * i + 1]));
            }
        }
        this.loopSpacingMm = longest;
    }

    /** Adds one point unless it lies outside, too close to a loop, or nearer than {@code clearanceMm} to another. */
    public boolean add(double u, double v, double clearanceMm) {
        if (!domain.contains(u, v) || domain.distanceToLoops(u, v) < LOOP_CLEARANCE * loopSpacingMm
                || isNear(u, v, clearanceMm)) {
            return false;
        }
        if (size + 2 > points.length) {
            points = Arrays.copyOf(points, 2 * points.length);
        }
        long key = key(cell(u), cell(v));
        int[] cell = cells.get(key);
        cell = cell == null ? new int[1] : Arrays.copyOf(cell, cell.length + 1);
        cell[cell.length - 1] = size;
        cells.put(key, cell);
        points[size++] = u;
        points[size++] = v;
        return true;
    }

    /**
     * Fills what is left with hexagonal grids from fine to coarse, each where the size field asks for it.
     *
     * @param sizeMm wanted spacing
     * @param finestMm its least value
     * @param coarsestMm its greatest value
     * @param jitter random displacement as a share of the spacing, 0 to 0.4
     * @param random source of the displacement
     */
    public void fill(ScalarField sizeMm, double finestMm, double coarsestMm, double jitter, SplittableRandom random) {
        double ratio = Math.sqrt(2);
        for (double h = finestMm; ; h *= ratio) {
            boolean last = h * ratio >= coarsestMm * 1.001;
            fillLevel(sizeMm, h, last ? Double.MAX_VALUE : h * ratio, jitter, random);
            if (last) {
                return;
            }
        }
    }

    private void fillLevel(ScalarField sizeMm, double h, double upTo, double jitter, SplittableRandom random) {
        double[] box = domain.bounds();
        double rowHeight = h * Math.sqrt(0.75);
        int rows = (int) Math.ceil((box[3] - box[1]) / rowHeight);
        int columns = (int) Math.ceil((box[2] - box[0]) / h) + 1;
        for (int row = 0; row <= rows; row++) {
            for (int column = 0; column <= columns; column++) {
                double u = box[0] + (column + (row % 2 == 0 ? 0 : 0.5)) * h;
                double v = box[1] + row * rowHeight;
                if (jitter > 0) {
                    u += jitter * h * (random.nextDouble() - 0.5);
                    v += jitter * h * (random.nextDouble() - 0.5);
                }
                double wanted = sizeMm.at(u, v);
                if (wanted < upTo) {
                    add(u, v, FILL_CLEARANCE * Math.max(h, Math.min(wanted, upTo)));
                }
            }
        }
    }

    private boolean isNear(double u, double v, double clearanceMm) {
        int reach = (int) Math.ceil(clearanceMm / cellMm);
        double square = clearanceMm * clearanceMm;
        for (int i = cell(u) - reach; i <= cell(u) + reach; i++) {
            for (int j = cell(v) - reach; j <= cell(v) + reach; j++) {
                int[] cell = cells.get(key(i, j));
                for (int k = 0; cell != null && k < cell.length; k++) {
                    double du = points[cell[k]] - u;
                    double dv = points[cell[k] + 1] - v;
                    if (du * du + dv * dv < square) {
                        return true;
                    }
                }
            }
        }
        return false;
    }

    private int cell(double coordinate) {
        return (int) Math.floor(coordinate / cellMm);
    }

    private static long key(int i, int j) {
        return (long) i << 32 | j & 0xffffffffL;
    }

    /** All points so far, {@code u, v} each, in the order they were added. */
    public double[] points() {
        return Arrays.copyOf(points, size);
    }
}
