package layupmold.geometry.fillet;

import com.carrotsearch.hppc.LongHashSet;

/** Cells of a grid that hold given points, and all their neighbours. */
final class CellSet {

    private static final long CENTRE = 1L << 20;

    private final double sizeMm;
    private final LongHashSet cells = new LongHashSet();
    private final LongHashSet own = new LongHashSet();

    CellSet(double sizeMm) {
        this.sizeMm = sizeMm;
    }

    private long index(double x) {
        return (long) Math.floor(x / sizeMm) + CENTRE;
    }

    private static long key(long i, long j, long k) {
        return i << 42 | j << 21 | k;
    }

    void add(double x, double y, double z) {
        long i = index(x);
        long j = index(y);
        long k = index(z);
        if (!own.add(key(i, j, k))) {
            return;
        }
        for (int d = 0; d < 27; d++) {
            cells.add(key(i + d % 3 - 1, j + d / 3 % 3 - 1, k + d / 9 - 1));
        }
    }

    boolean contains(double x, double y, double z) {
        return cells.contains(key(index(x), index(y), index(z)));
    }
}
