package layupmold.geometry.shape;

import java.util.ArrayList;
import java.util.List;

/**
 * A plane curve of straight pieces and circular arcs joined tangentially, by arc length, starting in the origin along
 * the first axis. Its second coordinate falls as it turns: a bowl's half section, seen mouth down.
 */
public final class Profile {

    private record Piece(double start, double length, double curvature, double x, double y, double heading) {
    }

    private final List<Piece> pieces = new ArrayList<>();
    private double length;
    private double x;
    private double y;
    private double heading;

    private Profile() {
    }

    public static Profile start() {
        return new Profile();
    }

    /** Continues straight on for {@code mm}. */
    public Profile straight(double mm) {
        return append(mm, 0);
    }

    /** Turns by {@code angleDeg} on a radius of {@code radiusMm}; a negative angle turns back. */
    public Profile turn(double radiusMm, double angleDeg) {
        double angle = Math.toRadians(angleDeg);
        return append(radiusMm * Math.abs(angle), Math.signum(angle) / radiusMm);
    }

    private Profile append(double mm, double curvature) {
        Piece piece = new Piece(length, mm, curvature, x, y, heading);
        pieces.add(piece);
        double[] end = new double[2];
        evaluate(piece, mm, end);
        x = end[0];
        y = end[1];
        heading += curvature * mm;
        length += mm;
        return this;
    }

    /** Arc length up to the end of the last piece; the last piece goes on beyond it. */
    public double length() {
        return length;
    }

    /** Point at arc length {@code s ≥ 0} into {@code out}: distance from the axis, height. */
    public void at(double s, double[] out) {
        int i = pieces.size() - 1;
        while (i > 0 && s < pieces.get(i).start) {
            i--;
        }
        evaluate(pieces.get(i), s - pieces.get(i).start, out);
    }

    private static void evaluate(Piece p, double along, double[] out) {
        if (p.curvature == 0) {
            out[0] = p.x + along * StrictMath.cos(p.heading);
            out[1] = p.y - along * StrictMath.sin(p.heading);
        } else {
            double end = p.heading + p.curvature * along;
            out[0] = p.x + (StrictMath.sin(end) - StrictMath.sin(p.heading)) / p.curvature;
            out[1] = p.y + (StrictMath.cos(end) - StrictMath.cos(p.heading)) / p.curvature;
        }
    }
}
