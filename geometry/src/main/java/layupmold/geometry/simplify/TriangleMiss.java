package layupmold.geometry.simplify;

import layupmold.geometry.mesh.Planes;

/**
 * How far a triangle is off its target: at the middles of its sides and of itself and, where the target bends below it
 * or at a corner, at points of a lattice and along sides and medians, closer and closer towards the corners: beside a mitred tip
 * the target may turn within a tenth of a millimetre. For one thread.
 */
public final class TriangleMiss {

    /** Below this cosine between a triangle's normal and the target's front the target is not flat there. */
    private static final double FLAT_COSINE = 0.998;
    /** Points of the lattice stand about this far apart. */
    private static final double SPACING_MM = 0.5;
    private static final int LEAST_PARTS = 4;
    private static final int MOST_PARTS = 16;
    /** Where the target is missed by this much, it may be by more between the points looked at. */
    private static final double STEEP_MM = 0.007;
    /** Along sides and medians, nearest to a corner, mm; then so many times as far each time. */
    private static final double NEAR_CORNER_MM = 0.025;
    private static final double GROWTH = 1.4;

    private final Target target;
    private final boolean twice;
    private final double[] worst = new double[4];
    private double enough = Double.POSITIVE_INFINITY;
    private double most;
    private double mostX;
    private double mostY;
    private double mostZ;
    private double[] xyz;
    private int a;
    private int b;
    private int c;

    public TriangleMiss(Target target) {
        this(target, false);
    }

    private TriangleMiss(Target target, boolean twice) {
        this.target = target;
        this.twice = twice;
    }

    /** Looks again, twice as closely, where much is missed. */
    public static TriangleMiss thorough(Target target) {
        return new TriangleMiss(target, true);
    }

    /**
     * Writes the greatest miss along each side, from the first, and inside the triangle of vertices {@code a}, {@code b}
     * and {@code c} to four places of {@code into}.
     */
    public void of(double[] xyz, int a, int b, int c, double[] into, int at) {
        this.xyz = xyz;
        this.most = -1;
        this.a = 3 * a;
        this.b = 3 * b;
        this.c = 3 * c;
        double[] n = Planes.normal(xyz, a, b, c);
        double flat = FLAT_COSINE * Math.sqrt(n[0] * n[0] + n[1] * n[1] + n[2] * n[2]);
        into[at] = missAt(0.5, 0.5);
        boolean bends = target.along(n[0], n[1], n[2]) < flat;
        into[at + 1] = missAt(0, 0.5);
        bends |= target.along(n[0], n[1], n[2]) < flat;
        into[at + 2] = missAt(0.5, 0);
        bends |= target.along(n[0], n[1], n[2]) < flat;
        into[at + 3] = missAt(1 / 3.0, 1 / 3.0);
        bends |= target.along(n[0], n[1], n[2]) < flat;
        if (Math.max(Math.max(into[at], into[at + 1]), Math.max(into[at + 2], into[at + 3])) > enough) {
            return;
        }
        for (int k = 0; k < 3 && !bends; k++) {
            missAt(k == 0 ? 1 : 0, k == 1 ? 1 : 0);
            bends = target.along(n[0], n[1], n[2]) < flat;
        }
        if (bends) {
            sayWhere();
            int parts = parts();
            if (lookCloser(into, at, parts)) {
                lookTowardsCorners(into, at);
                if (twice && most > STEEP_MM && most < enough) {
                    lookCloser(into, at, 2 * parts);
                }
            }
        }
    }

    private void sayWhere() {
        double x = (xyz[a] + xyz[b] + xyz[c]) / 3;
        double y = (xyz[a + 1] + xyz[b + 1] + xyz[c + 1]) / 3;
        double z = (xyz[a + 2] + xyz[b + 2] + xyz[c + 2]) / 3;
        double reach = 0;
        for (int corner : new int[] {a, b, c}) {
            double dx = xyz[corner] - x;
            double dy = xyz[corner + 1] - y;
            double dz = xyz[corner + 2] - z;
            reach = Math.max(reach, dx * dx + dy * dy + dz * dz);
        }
        target.beside(x, y, z, Math.sqrt(reach));
    }

    /**
     * Greatest miss along the sides and inside the triangle of vertices {@code a}, {@code b} and {@code c}; looks no further
     * once that is more than {@code enough}.
     */
    public double worst(double[] xyz, int a, int b, int c, double enough) {
        this.enough = enough;
        of(xyz, a, b, c, worst, 0);
        this.enough = Double.POSITIVE_INFINITY;
        return Math.max(Math.max(worst[0], worst[1]), Math.max(worst[2], worst[3]));
    }

    /** Where the triangle last looked at misses most, as far as it was looked at; maybe a corner. */
    public double[] worstPlace() {
        return new double[] {mostX, mostY, mostZ};
    }

    private int parts() {
        double longest = Math.max(squaredLength(a, b), Math.max(squaredLength(b, c), squaredLength(c, a)));
        return (int) Math.max(LEAST_PARTS, Math.min(MOST_PARTS, Math.ceil(Math.sqrt(longest) / SPACING_MM)));
    }

    /** False if that is enough. */
    private boolean lookCloser(double[] into, int at, int parts) {
        for (int i = 0; i <= parts; i++) {
            for (int j = 0; i + j <= parts; j++) {
                int k = parts - i - j;
                if (i < parts && j < parts && k < parts) {
                    int place = k == 0 ? at : i == 0 ? at + 1 : j == 0 ? at + 2 : at + 3;
                    into[place] = Math.max(into[place], missAt(i / (double) parts, j / (double) parts));
                    if (into[place] > enough) {
                        return false;
                    }
                }
            }
        }
        return true;
    }

    /** Along the sides and the medians. */
    private void lookTowardsCorners(double[] into, int at) {
        double[] lengths = {Math.sqrt(squaredLength(a, b)), Math.sqrt(squaredLength(b, c)), Math.sqrt(squaredLength(c, a))};
        for (int side = 0; side < 3; side++) {
            int next = (side + 1) % 3;
            double shortest = Math.min(lengths[side], lengths[next]);
            for (double mm = NEAR_CORNER_MM; mm < lengths[side] / 2; mm *= GROWTH) {
                double share = mm / lengths[side];
                into[at + side] = Math.max(into[at + side],
                        Math.max(missAlong(side, share), missAlong(side, 1 - share)));
                if (mm < shortest / 2) {
                    into[at + 3] = Math.max(into[at + 3], missOnMedian(next, mm / shortest));
                }
            }
        }
    }

    private double missAlong(int side, double share) {
        double rest = 1 - share;
        return side == 0 ? missAt(rest, share) : side == 1 ? missAt(0, rest) : missAt(share, 0);
    }

    private double missOnMedian(int corner, double share) {
        double half = share / 2;
        return missAt(corner == 0 ? 1 - share : half, corner == 1 ? 1 - share : half);
    }

    private double squaredLength(int p, int q) {
        double x = xyz[p] - xyz[q];
        double y = xyz[p + 1] - xyz[q + 1];
        double z = xyz[p + 2] - xyz[q + 2];
        return x * x + y * y + z * z;
    }

    private double missAt(double ofA, double ofB) {
        double ofC = 1 - ofA - ofB;
        double x = ofA * xyz[a] + ofB * xyz[b] + ofC * xyz[c];
        double y = ofA * xyz[a + 1] + ofB * xyz[b + 1] + ofC * xyz[c + 1];
        double z = ofA * xyz[a + 2] + ofB * xyz[b + 2] + ofC * xyz[c + 2];
        double miss = Math.abs(target.miss(x, y, z));
        if (miss > most) {
            most = miss;
            mostX = x;
            mostY = y;
            mostZ = z;
        }
        return miss;
    }
}
