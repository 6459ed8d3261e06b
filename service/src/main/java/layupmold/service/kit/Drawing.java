package layupmold.service.kit;

import java.util.List;
import java.util.stream.Stream;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.LineString;

/**
 * Lines and words at full size; mm, x to the right, y up.
 *
 * @param strokes in drawing order
 * @param labels on top of them
 */
record Drawing(List<Stroke> strokes, List<Label> labels) {

    Drawing {
        strokes = List.copyOf(strokes);
        labels = List.copyOf(labels);
    }

    /** What a line means, and so how it is drawn. */
    enum Pen {
        CUT(0.35, 0x000000, ""),
        TRIM(0.25, 0x1f4e9e, "4 2"),
        DART(0.25, 0xa03010, ""),
        SPLIT(0.25, 0xa03010, "6 2 1 2"),
        MARK(0.3, 0x000000, "");

        final double widthMm;
        final int rgb;
        /** Lengths of dash and gap in mm, or empty for a solid line. */
        final String dash;

        Pen(double widthMm, int rgb, String dash) {
            this.widthMm = widthMm;
            this.rgb = rgb;
            this.dash = dash;
        }

        float[] dashMm() {
            List<Float> lengths = Stream.of(dash.split(" ")).filter(s -> !s.isEmpty()).map(Float::valueOf).toList();
            float[] array = new float[lengths.size()];
            for (int k = 0; k < array.length; k++) {
                array[k] = lengths.get(k);
            }
            return array;
        }
    }

    /** @param xy corners, two numbers each */
    record Stroke(Pen pen, double[] xy) {

        static Stroke of(Pen pen, LineString line) {
            double[] xy = new double[2 * line.getNumPoints()];
            for (int k = 0; k < line.getNumPoints(); k++) {
                xy[2 * k] = line.getCoordinateN(k).x;
                xy[2 * k + 1] = line.getCoordinateN(k).y;
            }
            return new Stroke(pen, xy);
        }

        Envelope box() {
            Envelope box = new Envelope();
            for (int k = 0; k < xy.length; k += 2) {
                box.expandToInclude(xy[k], xy[k + 1]);
            }
            return box;
        }
    }

    /** @param heightMm of capital letters, about */
    record Label(double x, double y, double heightMm, String text) {
    }

    /** Bounds of the lines and of where the words begin. */
    Envelope box() {
        Envelope box = new Envelope();
        strokes.forEach(s -> box.expandToInclude(s.box()));
        labels.forEach(l -> box.expandToInclude(l.x(), l.y() + l.heightMm()));
        return box;
    }
}
