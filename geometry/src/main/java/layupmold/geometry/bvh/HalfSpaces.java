package layupmold.geometry.bvh;

/**
 * A few half-spaces {@code n · c >= b} and the point of their intersection nearest to another one, reused by one thread.
 *
 * <p>Half-spaces are added one by one, each of them violated by the last answer, so that the new one is active in the
 * next answer: it is found among the planes, lines and points that the new one makes with none, one or two of the
 * others. O(m³) for m half-spaces, which are few.
 */
final class HalfSpaces {

    static final int MOST = 16;
    /** Planes that meet at a smaller angle count as parallel: its squared sine. */
    private static final double PARALLEL = 1e-10;

    private final double[] normal = new double[3 * MOST];
    private final double[] bound = new double[MOST];
    private int size;
    private double px;
    private double py;
    private double pz;
    private double slack;
    private double least;

    /** The answer. */
    double x;
    double y;
    double z;

    /** Starts over with the point whose nearest is asked for. */
    void clear(double x, double y, double z, double slack) {
        size = 0;
        this.px = x;
        this.py = y;
        this.pz = z;
        this.slack = slack;
        this.x = x;
        this.y = y;
        this.z = z;
    }

    boolean isFull() {
        return size == MOST;
    }

    /** Adds a half-space with a unit normal; false if the intersection is empty as far as rounding lets tell. */
    boolean add(double nx, double ny, double nz, double b) {
        int own = size++;
        normal[3 * own] = nx;
        normal[3 * own + 1] = ny;
        normal[3 * own + 2] = nz;
        bound[own] = b;
        least = Double.POSITIVE_INFINITY;
        double s = missing(own);
        consider(px + s * nx, py + s * ny, pz + s * nz);
        for (int i = 0; i < own; i++) {
            line(own, i);
            for (int k = 0; k < i; k++) {
                corner(own, i, k);
            }
        }
        return least < Double.POSITIVE_INFINITY;
    }

    /** Cosine of the greatest angle between normals of half-spaces whose planes pass the answer within a distance. */
    double leastCosine(double withinMm) {
        double least = 1;
        for (int i = 0; i < size; i++) {
            for (int k = 0; k < i; k++) {
                if (isActive(i, withinMm) && isActive(k, withinMm)) {
                    least = Math.min(least, dot(i, k));
                }
            }
        }
        return least;
    }

    private boolean isActive(int i, double withinMm) {
        return normal[3 * i] * x + normal[3 * i + 1] * y + normal[3 * i + 2] * z < bound[i] + withinMm;
    }

    private double missing(int i) {
        return bound[i] - normal[3 * i] * px - normal[3 * i + 1] * py - normal[3 * i + 2] * pz;
    }

    private double dot(int i, int k) {
        return normal[3 * i] * normal[3 * k] + normal[3 * i + 1] * normal[3 * k + 1]
                + normal[3 * i + 2] * normal[3 * k + 2];
    }

    private void line(int i, int k) {
        double cosine = dot(i, k);
        double square = 1 - cosine * cosine;
        if (square < PARALLEL) {
            return;
        }
        double a = missing(i);
        double b = missing(k);
        double s = (a - cosine * b) / square;
        double t = (b - cosine * a) / square;
        consider(px + s * normal[3 * i] + t * normal[3 * k], py + s * normal[3 * i + 1] + t * normal[3 * k + 1],
                pz + s * normal[3 * i + 2] + t * normal[3 * k + 2]);
    }

    private void corner(int i, int j, int k) {
        double[] n = normal;
        double ax = n[3 * j + 1] * n[3 * k + 2] - n[3 * j + 2] * n[3 * k + 1];
        double ay = n[3 * j + 2] * n[3 * k] - n[3 * j] * n[3 * k + 2];
        double az = n[3 * j] * n[3 * k + 1] - n[3 * j + 1] * n[3 * k];
        double volume = n[3 * i] * ax + n[3 * i + 1] * ay + n[3 * i + 2] * az;
        if (volume * volume < PARALLEL) {
            return;
        }
        double bx = n[3 * k + 1] * n[3 * i + 2] - n[3 * k + 2] * n[3 * i + 1];
        double by = n[3 * k + 2] * n[3 * i] - n[3 * k] * n[3 * i + 2];
        double bz = n[3 * k] * n[3 * i + 1] - n[3 * k + 1] * n[3 * i];
        double cx = n[3 * i + 1] * n[3 * j + 2] - n[3 * i + 2] * n[3 * j + 1];
        double cy = n[3 * i + 2] * n[3 * j] - n[3 * i] * n[3 * j + 2];
        double cz = n[3 * i] * n[3 * j + 1] - n[3 * i + 1] * n[3 * j];
        double a = missing(i) / volume;
        double b = missing(j) / volume;
        double c = missing(k) / volume;
        consider(px + a * ax + b * bx + c * cx, py + a * ay + b * by + c * cy, pz + a * az + b * bz + c * cz);
    }

    private void consider(double qx, double qy, double qz) {
        double away = (qx - px) * (qx - px) + (qy - py) * (qy - py) + (qz - pz) * (qz - pz);
        if (away >= least) {
            return;
        }
        for (int i = 0; i < size; i++) {
            if (normal[3 * i] * qx + normal[3 * i + 1] * qy + normal[3 * i + 2] * qz < bound[i] - slack) {
                return;
            }
        }
        least = away;
        x = qx;
        y = qy;
        z = qz;
    }
}
