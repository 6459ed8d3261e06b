package layupmold.geometry.drape;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.Function;
import java.util.stream.Stream;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.LevelClip;

/**
 * Cuts a ply in two along a thread, so that each piece has threads of its own: several threads of warp and weft are
 * tried with coarse nets from each piece's middle, and the pieces of the best few are laid in full, from their best
 * starts.
 */
final class SplitSearch {

    private static final double[] CUTS = {0.25, 1 / 3.0, 0.5, 2 / 3.0, 0.75};
    private static final int LAID_IN_FULL = 3;
    /** Vertices this near to the cut count as on it, so that no slivers are cut off. */
    private static final double SNAP_MM = 0.02;

    private final ToolSheet sheet;
    private final double[] uv;
    private final DrapeSpec spec;

    /** @param located flat coordinates of the ply in one piece */
    SplitSearch(ToolSheet sheet, double[] located, DrapeSpec spec) {
        this.sheet = sheet;
        this.uv = filled(sheet, located);
        this.spec = spec;
    }

    /** @param amissMm2 of both pieces, by coarse nets */
    private record Cut(boolean alongWarp, double atMm, double amissMm2) {
    }

    /** @param lay lays a piece in full, from its own best start */
    DrapedPly.Split best(Function<ToolSheet, DrapedPly> lay) {
        List<Cut> cuts = new ArrayList<>();
        for (boolean alongWarp : new boolean[] {true, false}) {
            double[] extent = extent(uv, alongWarp ? 1 : 0);
            for (double share : CUTS) {
                double at = extent[0] + share * (extent[1] - extent[0]);
                cuts.add(new Cut(alongWarp, at, pieces(alongWarp, at).stream().mapToDouble(this::amissMm2).sum()));
            }
        }
        cuts.sort(Comparator.comparingDouble(Cut::amissMm2));
        DrapedPly.Split best = null;
        for (Cut cut : cuts.subList(0, LAID_IN_FULL)) {
            DrapedPly.Split split = new DrapedPly.Split(cut.alongWarp, cut.atMm,
                    pieces(cut.alongWarp, cut.atMm).stream().map(lay).toList());
            best = best == null || split.amissShare() < best.amissShare() - 1e-9 ? split : best;
        }
        return best;
    }

    private List<ToolSheet> pieces(boolean alongWarp, double atMm) {
        return Stream.of(-1, 1).map(side -> piece(alongWarp, atMm, side))
                .filter(piece -> piece.areaMm2() > 1e-3 * sheet.areaMm2()).toList();
    }

    private double amissMm2(ToolSheet piece) {
        return new StartSearch(piece, spec.lockingDeg()).fromTheMiddle(spec.warpAngleDeg()).amissMm2();
    }

    private ToolSheet piece(boolean alongWarp, double atMm, int side) {
        double[] beyond = new double[uv.length / 2];
        for (int v = 0; v < beyond.length; v++) {
            double past = uv[2 * v + (alongWarp ? 1 : 0)] - atMm;
            beyond[v] = Math.abs(past) < SNAP_MM ? 0 : -side * past;
        }
        LevelClip.Part part = LevelClip.atMostZero(sheet.mesh(), beyond);
        boolean[] cap = new boolean[part.source().length];
        for (int t = 0; t < cap.length; t++) {
            cap[t] = sheet.isCap(part.source()[t]);
        }
        return ToolSheet.of(part.mesh(), cap);
    }

    /** What no cloth reached belongs to the piece that reached the nearest corner beside it. */
    private static double[] filled(ToolSheet sheet, double[] located) {
        double[] uv = located.clone();
        int[] triangles = sheet.mesh().triangles();
        boolean changed = true;
        while (changed) {
            changed = false;
            for (int h = 0; h < triangles.length; h++) {
                int v = triangles[h];
                int w = triangles[EdgeTopology.next(h)];
                if (Double.isNaN(uv[2 * v]) != Double.isNaN(uv[2 * w])) {
                    int known = Double.isNaN(uv[2 * v]) ? w : v;
                    int unknown = known == v ? w : v;
                    uv[2 * unknown] = uv[2 * known];
                    uv[2 * unknown + 1] = uv[2 * known + 1];
                    changed = true;
                }
            }
        }
        return uv;
    }

    private static double[] extent(double[] uv, int axis) {
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (int k = axis; k < uv.length; k += 2) {
            if (!Double.isNaN(uv[k])) {
                low = Math.min(low, uv[k]);
                high = Math.max(high, uv[k]);
            }
        }
        return new double[] {low, high};
    }
}
