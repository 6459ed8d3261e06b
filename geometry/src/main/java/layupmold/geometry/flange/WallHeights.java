package layupmold.geometry.flange;

/**
 * How high the wall stands between a foot that follows the perimeter and its level top. Where the foot climbs steeply,
 * triangles all the way from it to the top twist against each other and leave the wall pleated. So it goes up straight
 * from heights of the foot that are evened out the more the farther it is.
 */
final class WallHeights {

    /** Feet less uneven leave walls whose pleats are flat. */
    private static final double EVEN_MM = 5;
    private static final int STEPS = 4;
    /** Feet count that are no farther than the nearest by this factor, and by as much besides; both squared. */
    private static final double FARTHER_SQUARED = 2;
    private static final double BESIDES_SQUARED_MM2 = 1;

    private final double[] foot;
    private final double up;
    private final double topMm;

    /**
     * @param foot x, y, z of its vertices, one after the other around
     * @param up 1 if the wall climbs with z, -1 if against it
     * @param topMm height of the top, counted along {@code up}
     */
    WallHeights(double[] foot, double up, double topMm) {
        this.foot = foot;
        this.up = up;
        this.topMm = topMm;
    }

    /** In how many steps the wall should climb. */
    int steps() {
        double lowest = Double.POSITIVE_INFINITY;
        double highest = Double.NEGATIVE_INFINITY;
        for (int i = 2; i < foot.length; i += 3) {
            lowest = Math.min(lowest, foot[i]);
            highest = Math.max(highest, foot[i]);
        }
        return highest - lowest > EVEN_MM ? STEPS : 1;
    }

    /** z at a place that is {@code share} of the way from foot to top. O(n) for n vertices of the foot. */
    double at(double x, double y, double share) {
        int n = foot.length / 3;
        double nearest = Double.POSITIVE_INFINITY;
        for (int i = 0; i < n; i++) {
            nearest = Math.min(nearest, squaredDistance(i, x, y));
        }
        double reach = FARTHER_SQUARED * nearest + BESIDES_SQUARED_MM2;
        double sum = 0;
        double weights = 0;
        for (int i = 0; i < n; i++) {
            double squared = squaredDistance(i, x, y);
            if (squared < reach) {
                double nearness = 1 - squared / reach;
                double weight = nearness * nearness * (lengthMm(i) + lengthMm((i + n - 1) % n));
                sum += weight * foot[3 * i + 2];
                weights += weight;
            }
        }
        double base = sum / weights;
        return base + share * (up * topMm - base);
    }

    private double squaredDistance(int i, double x, double y) {
        double dx = foot[3 * i] - x;
        double dy = foot[3 * i + 1] - y;
        return dx * dx + dy * dy;
    }

    /** Of the foot, in plan, from one vertex to the next. */
    private double lengthMm(int i) {
        int next = 3 * ((i + 1) % (foot.length / 3));
        return Math.hypot(foot[next] - foot[3 * i], foot[next + 1] - foot[3 * i + 1]);
    }
}
