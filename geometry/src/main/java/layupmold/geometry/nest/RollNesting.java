package layupmold.geometry.nest;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.TreeMap;
import java.util.stream.IntStream;

/**
 * Lays pieces on a roll of given width with their warp along the roll: each piece, largest first, goes where it ends
 * soonest along the roll, turned by half a turn or not, in any gap that is wide enough (bottom-left fill over rows).
 * Three orders of the pieces are tried and the shortest layout kept. Deterministic.
 *
 * <p>Clearances hold exactly; the layout is good, not provably the shortest. O(pieces² · rows²) in the worst case.
 */
public final class RollNesting {

    private final int rowCount;
    private final List<TreeMap<Double, Double>> taken = new ArrayList<>();

    private RollNesting(int rowCount) {
        this.rowCount = rowCount;
        for (int r = 0; r < rowCount; r++) {
            taken.add(new TreeMap<>());
        }
    }

    private record Spot(Footprint footprint, double x, int row) {
        double end() {
            return x + footprint.lengthMm;
        }
    }

    /**
     * @param rollWidthMm width of the roll, above twice the clearance
     * @param clearanceMm at least 0
     */
    public static RollLayout nest(List<ClothPiece> pieces, double rollWidthMm, double clearanceMm) {
        if (!(clearanceMm >= 0) || !(rollWidthMm > 2 * clearanceMm)) {
            throw new IllegalArgumentException("the roll must be wider than twice the clearance");
        }
        int rows = (int) Math.floor((rollWidthMm - clearanceMm) / Footprint.ROW);
        List<Footprint[]> footprints = pieces.parallelStream().map(p -> new Footprint[] {
            Footprint.of(p.outline(), clearanceMm, false), Footprint.of(p.outline(), clearanceMm, true)}).toList();
        List<Comparator<Integer>> orders = List.of(
                Comparator.comparingDouble(k -> -pieces.get(k).outline().getArea()),
                Comparator.comparingDouble(k -> -footprints.get(k)[0].rows.length),
                Comparator.comparingDouble(k -> -footprints.get(k)[0].lengthMm));
        RollLayout best = null;
        for (Comparator<Integer> order : orders) {
            List<Integer> sequence = IntStream.range(0, pieces.size()).boxed()
                    .sorted(order.thenComparing(Comparator.naturalOrder())).toList();
            RollLayout layout = new RollNesting(rows).lay(pieces, footprints, sequence, rollWidthMm, clearanceMm);
            best = best == null || layout.lengthMm() < best.lengthMm() ? layout : best;
        }
        return best;
    }

    private RollLayout lay(List<ClothPiece> pieces, List<Footprint[]> footprints, List<Integer> sequence,
            double rollWidthMm, double clearanceMm) {
        RollLayout.Placed[] placed = new RollLayout.Placed[pieces.size()];
        List<ClothPiece> unplaced = new ArrayList<>();
        double length = 0;
        for (int k : sequence) {
            Spot spot = bestSpot(footprints.get(k));
            if (spot == null) {
                unplaced.add(pieces.get(k));
                continue;
            }
            take(spot);
            Footprint f = spot.footprint;
            placed[k] = new RollLayout.Placed(pieces.get(k), f.turned, spot.x + f.dx + clearanceMm / 2,
                    spot.row * Footprint.ROW + f.dy + clearanceMm / 2);
            length = Math.max(length, spot.end() + clearanceMm);
        }
        List<RollLayout.Placed> inOrder = new ArrayList<>();
        for (RollLayout.Placed p : placed) {
            if (p != null) {
                inOrder.add(p);
            }
        }
        return new RollLayout(rollWidthMm, clearanceMm, inOrder, unplaced, length);
    }

    private Spot bestSpot(Footprint[] turns) {
        int rows = turns[0].rows.length;
        int offsets = rowCount - rows + 1;
        if (offsets <= 0) {
            return null;
        }
        List<Spot> spots = IntStream.range(0, 2 * offsets).parallel()
                .mapToObj(n -> new Spot(turns[n % 2], leastX(turns[n % 2], n / 2), n / 2)).toList();
        Spot best = null;
        for (Spot spot : spots) {
            if (best == null || spot.end() < best.end() - 1e-9) {
                best = spot;
            }
        }
        return best;
    }

    /** Least position along the roll where all rows of a footprint are free. */
    private double leastX(Footprint footprint, int row) {
        double x = 0;
        boolean moved = true;
        while (moved) {
            moved = false;
            for (int r = 0; r < footprint.rows.length; r++) {
                double free = leastX(footprint.rows[r], taken.get(row + r), x);
                moved |= free > x;
                x = free;
            }
        }
        return x;
    }

    private static double leastX(double[] intervals, TreeMap<Double, Double> row, double from) {
        double x = from;
        boolean moved = true;
        while (moved) {
            moved = false;
            for (int k = 0; k < intervals.length; k += 2) {
                var before = row.lowerEntry(x + intervals[k + 1]);
                if (before != null && before.getValue() > x + intervals[k] + 1e-9) {
                    x = before.getValue() - intervals[k];
                    moved = true;
                }
            }
        }
        return x;
    }

    private void take(Spot spot) {
        for (int r = 0; r < spot.footprint.rows.length; r++) {
            double[] intervals = spot.footprint.rows[r];
            for (int k = 0; k < intervals.length; k += 2) {
                taken.get(spot.row + r).put(spot.x + intervals[k], spot.x + intervals[k + 1]);
            }
        }
    }
}
