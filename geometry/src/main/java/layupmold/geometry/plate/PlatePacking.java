package layupmold.geometry.plate;

import java.util.ArrayList;
import java.util.List;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.geom.prep.PreparedGeometry;
import org.locationtech.jts.geom.prep.PreparedGeometryFactory;
import org.locationtech.jts.geom.util.AffineTransformation;

/**
 * Stands footprints on a bed in the order given: each goes where it ends nearest to the front, then to the left, in
 * quarter turns, on a lattice of places; one that finds none is left out and the next is tried. Greedy, so good but not
 * the best; the order is kept because it is the order of urgency. Deterministic; O(items² · places).
 *
 * <p>Promise: any two footprints keep the clearance, and each keeps half of it from the bed's edge.
 */
public final class PlatePacking {

    private static final int LATTICE = 128;
    private static final double LEAST_STEP_MM = 1;
    /** A buffer's arcs of 8 segments lie up to this share inside the true circle (JTS, BufferParameters). */
    private static final double ARC_SHORTFALL = 0.02;

    private final double bedXMm;
    private final double bedYMm;
    private final double clearanceMm;
    private final double step;
    private final List<PreparedGeometry> taken = new ArrayList<>();

    /**
     * Where a footprint stands: turned about its own origin, then moved.
     *
     * @param item index in the list given
     * @param quarterTurns counter-clockwise, 0 to 3
     */
    public record Placed(int item, int quarterTurns, double xMm, double yMm) {

        /** From the footprint's own coordinates to the bed's, whose origin is its front left corner. */
        public AffineTransformation toBed() {
            return turn(quarterTurns).translate(xMm, yMm);
        }
    }

    private PlatePacking(double bedXMm, double bedYMm, double clearanceMm) {
        this.bedXMm = bedXMm;
        this.bedYMm = bedYMm;
        this.clearanceMm = clearanceMm;
        this.step = Math.max(LEAST_STEP_MM, Math.max(bedXMm, bedYMm) / LATTICE);
    }

    /**
     * @param footprints the most urgent first
     * @param clearanceMm at least 0
     * @return those that found a place, in order
     */
    public static List<Placed> pack(List<Polygon> footprints, double bedXMm, double bedYMm, double clearanceMm) {
        if (!(bedXMm > 0 && bedYMm > 0 && clearanceMm >= 0)) {
            throw new IllegalArgumentException("bed and clearance must be positive");
        }
        PlatePacking packing = new PlatePacking(bedXMm, bedYMm, clearanceMm);
        List<Placed> placed = new ArrayList<>();
        for (int i = 0; i < footprints.size(); i++) {
            Placed place = packing.place(i, footprints.get(i));
            if (place != null) {
                placed.add(place);
            }
        }
        return placed;
    }

    private static AffineTransformation turn(int quarterTurns) {
        // Whole numbers, so that a quarter turn is exact.
        double cos = quarterTurns == 0 ? 1 : quarterTurns == 2 ? -1 : 0;
        double sin = quarterTurns == 1 ? 1 : quarterTurns == 3 ? -1 : 0;
        return new AffineTransformation(cos, -sin, 0, sin, cos, 0);
    }

    private Placed place(int item, Polygon footprint) {
        Geometry wide = footprint.buffer(clearanceMm / 2 * (1 + ARC_SHORTFALL));
        Placed best = null;
        Geometry bestWide = null;
        double bestTop = Double.POSITIVE_INFINITY;
        for (int turns = 0; turns < 4; turns++) {
            Geometry turned = turn(turns).transform(wide);
            Envelope bare = turn(turns).transform(footprint).getEnvelopeInternal();
            double[] at = lowest(turned, bare, bestTop);
            if (at != null) {
                bestTop = at[1] + bare.getHeight();
                best = new Placed(item, turns, at[0] - bare.getMinX(), at[1] - bare.getMinY());
                bestWide = AffineTransformation.translationInstance(best.xMm(), best.yMm()).transform(turned);
            }
        }
        if (best != null) {
            taken.add(PreparedGeometryFactory.prepare(bestWide));
        }
        return best;
    }

    /** Lower left corner of the box, lowest first, that ends below {@code top}; null if there is none. */
    private double[] lowest(Geometry wide, Envelope bare, double top) {
        double edge = clearanceMm / 2;
        double farX = bedXMm - edge - bare.getWidth();
        double farY = Math.min(bedYMm - edge, Math.nextDown(top)) - bare.getHeight();
        if (farX < edge) {
            return null;
        }
        for (double y = edge; y <= farY; y += step) {
            for (double x = edge; ; x = Math.min(farX, x + step)) {
                if (isFree(wide, x - bare.getMinX(), y - bare.getMinY())) {
                    return new double[] {x, y};
                }
                if (x >= farX) {
                    break;
                }
            }
        }
        return null;
    }

    private boolean isFree(Geometry wide, double dx, double dy) {
        Envelope box = new Envelope(wide.getEnvelopeInternal());
        box.translate(dx, dy);
        Geometry moved = null;
        for (PreparedGeometry other : taken) {
            if (other.getGeometry().getEnvelopeInternal().intersects(box)) {
                moved = moved == null ? AffineTransformation.translationInstance(dx, dy).transform(wide) : moved;
                if (other.intersects(moved)) {
                    return false;
                }
            }
        }
        return true;
    }
}
