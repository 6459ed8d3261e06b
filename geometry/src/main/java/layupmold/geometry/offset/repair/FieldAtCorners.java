package layupmold.geometry.offset.repair;

import com.carrotsearch.hppc.DoubleArrayList;
import com.carrotsearch.hppc.IntArrayList;
import com.carrotsearch.hppc.LongIntHashMap;
import java.util.BitSet;
import layupmold.geometry.parallel.Parallel;

/** The field at grid corners, evaluated once each although a region grows over several attempts. */
final class FieldAtCorners {

    private static final int GRAIN = 1 << 10;

    private final CellGrid grid;
    private final OffsetField field;
    private final LongIntHashMap indexOf = new LongIntHashMap();
    private final DoubleArrayList values = new DoubleArrayList();
    private final DoubleArrayList mitred = new DoubleArrayList();
    private final BitSet beyondBoundary = new BitSet();

    FieldAtCorners(CellGrid grid, OffsetField field) {
        this.grid = grid;
        this.field = field;
    }

    /** Fills the arrays with the field at {@code corners}. */
    void read(long[] corners, double[] value, double[] mitredValue, boolean[] beyond) {
        IntArrayList fresh = new IntArrayList();
        for (int i = 0; i < corners.length; i++) {
            int at = indexOf.getOrDefault(corners[i], -1);
            if (at < 0) {
                fresh.add(i);
            } else {
                value[i] = values.get(at);
                mitredValue[i] = mitred.get(at);
                beyond[i] = beyondBoundary.get(at);
            }
        }
        Parallel.forRanges(fresh.size(), GRAIN, (chunk, from, to) -> {
            OffsetField.Sample sample = new OffsetField.Sample();
            for (int k = from; k < to; k++) {
                int i = fresh.get(k);
                field.at(grid.plane(0, CellGrid.component(corners[i], 0)),
                        grid.plane(1, CellGrid.component(corners[i], 1)),
                        grid.plane(2, CellGrid.component(corners[i], 2)), sample);
                value[i] = sample.value;
                mitredValue[i] = sample.mitred;
                beyond[i] = sample.beyondBoundary;
            }
        });
        for (int k = 0; k < fresh.size(); k++) {
            int i = fresh.get(k);
            indexOf.put(corners[i], values.size());
            beyondBoundary.set(values.size(), beyond[i]);
            values.add(value[i]);
            mitred.add(mitredValue[i]);
        }
    }
}
