package layupmold.geometry.nest;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.geom.util.AffineTransformation;
import org.locationtech.jts.simplify.DouglasPeuckerSimplifier;

/**
 * A piece widened by half the clearance and cut into rows across the warp, each row the intervals along the warp that
 * it touches. Two footprints whose rows do not overlap keep the clearance; the rows take a little more than the true
 * outline, never less.
 */
final class Footprint {

    /** Height of a row, mm. */
    static final double ROW = 2;

    private static final double THINNING = 0.2;
    private static final GeometryFactory FACTORY = new GeometryFactory();

    /** Start and end of each interval, two numbers each, one array a row; coordinates from the lower left corner. */
    final double[][] rows;
    /** From the piece's own coordinates to the footprint's lower left corner. */
    final double dx;
    final double dy;
    final double lengthMm;
    final boolean turned;

    private Footprint(double[][] rows, double dx, double dy, double lengthMm, boolean turned) {
        this.rows = rows;
        this.dx = dx;
        this.dy = dy;
        this.lengthMm = lengthMm;
        this.turned = turned;
    }

    static Footprint of(Polygon outline, double clearanceMm, boolean turned) {
        Geometry piece = turned ? AffineTransformation.scaleInstance(-1, -1).transform(outline) : outline;
        // Thinning may eat into the outline by as much as it may add, so the buffer makes up for it.
        Geometry wide = DouglasPeuckerSimplifier.simplify(piece, THINNING).buffer(clearanceMm / 2 + THINNING, 4);
        Envelope box = wide.getEnvelopeInternal();
        Geometry moved = AffineTransformation.translationInstance(-box.getMinX(), -box.getMinY()).transform(wide);
        int count = (int) Math.ceil(box.getHeight() / ROW);
        double[][] rows = new double[count][];
        for (int r = 0; r < count; r++) {
            rows[r] = intervals(moved.intersection(band(r, box.getWidth())));
        }
        return new Footprint(rows, -box.getMinX(), -box.getMinY(), box.getWidth(), turned);
    }

    private static Polygon band(int row, double width) {
        double y0 = row * ROW;
        return FACTORY.createPolygon(new Coordinate[] {new Coordinate(-1, y0), new Coordinate(width + 1, y0),
            new Coordinate(width + 1, y0 + ROW), new Coordinate(-1, y0 + ROW), new Coordinate(-1, y0)});
    }

    private static double[] intervals(Geometry slice) {
        List<double[]> list = new ArrayList<>();
        for (int k = 0; k < slice.getNumGeometries(); k++) {
            Envelope box = slice.getGeometryN(k).getEnvelopeInternal();
            if (!box.isNull()) {
                list.add(new double[] {box.getMinX(), box.getMaxX()});
            }
        }
        list.sort((a, b) -> Double.compare(a[0], b[0]));
        double[] flat = new double[2 * list.size()];
        int size = 0;
        for (double[] interval : list) {
            if (size > 0 && interval[0] <= flat[size - 1]) {
                flat[size - 1] = Math.max(flat[size - 1], interval[1]);
            } else {
                flat[size++] = interval[0];
                flat[size++] = interval[1];
            }
        }
        return Arrays.copyOf(flat, size);
    }
}
