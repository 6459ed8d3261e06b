package layupmold.geometry.offset.repair;

import com.carrotsearch.hppc.LongHashSet;
import layupmold.geometry.mesh.TriangleMesh;

/** Small cubes of space to which no vertex may be brought. */
final class BannedPlaces {

    private static final int BITS = 21;
    private static final long MASK = (1L << BITS) - 1;

    private final double cubeMm;
    private final LongHashSet cubes = new LongHashSet();

    BannedPlaces(double cubeMm) {
        this.cubeMm = cubeMm;
    }

    private long index(double mm) {
        return (long) Math.floor(mm / cubeMm);
    }

    private static long key(long i, long j, long k) {
        return i & MASK | (j & MASK) << BITS | (k & MASK) << 2 * BITS;
    }

    boolean contains(double x, double y, double z) {
        return cubes.contains(key(index(x), index(y), index(z)));
    }

    /** Bans the surroundings of the corners of triangle {@code t}. */
    void add(TriangleMesh mesh, int t) {
        for (int corner = 0; corner < 3; corner++) {
            int v = 3 * mesh.triangles()[3 * t + corner];
            long i = index(mesh.xyz()[v]);
            long j = index(mesh.xyz()[v + 1]);
            long k = index(mesh.xyz()[v + 2]);
            for (int n = 0; n < 27; n++) {
                cubes.add(key(i + n % 3 - 1, j + n / 3 % 3 - 1, k + n / 9 - 1));
            }
        }
    }
}
