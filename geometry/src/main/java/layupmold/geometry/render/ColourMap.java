package layupmold.geometry.render;

/**
 * A line of 256 colours through OKLab, cut into steps of equal length so that equal differences of the value look
 * equally large. Lightness is monotone (sequential map) or monotone on each side of the middle (diverging map), so
 * that the order survives grey printing and every kind of colour vision.
 */
public final class ColourMap {

    /** Shown where there is no value. */
    public static final int NO_VALUE = 0xA8A29A;

    /** Deep indigo through sea green to straw: low to high. */
    public static final ColourMap SEQUENTIAL = new ColourMap(evenSteps(256,
            Oklab.ofHue(0.28, 0.100, 285), Oklab.ofHue(0.44, 0.095, 250), Oklab.ofHue(0.60, 0.085, 200),
            Oklab.ofHue(0.77, 0.100, 145), Oklab.ofHue(0.93, 0.100, 102)));

    /** Rust (below) through near-white (the middle) to blue (above). */
    public static final ColourMap DIVERGING = new ColourMap(joined(
            evenSteps(128, Oklab.ofHue(0.45, 0.120, 42), Oklab.ofHue(0.70, 0.115, 58), Oklab.ofHue(0.95, 0.010, 80)),
            evenSteps(128, Oklab.ofHue(0.95, 0.010, 80), Oklab.ofHue(0.70, 0.100, 240), Oklab.ofHue(0.45, 0.120, 258))));

    private static final int FINE = 2048;

    private final int[] table;

    private ColourMap(int[] table) {
        this.table = table;
    }

    /** 0xRRGGBB for {@code t} in 0..1, clamped; {@link #NO_VALUE} for NaN. */
    public int at(double t) {
        if (Double.isNaN(t)) {
            return NO_VALUE;
        }
        return table[(int) Math.round(Math.max(0, Math.min(1, t)) * (table.length - 1))];
    }

    /** The colours, first to last. */
    public int[] table() {
        return table.clone();
    }

    /** {@code n} colours at equal distances along the curve through the anchors. */
    private static int[] evenSteps(int n, Oklab... anchors) {
        Oklab[] curve = new Oklab[FINE + 1];
        double[] length = new double[FINE + 1];
        for (int i = 0; i <= FINE; i++) {
            curve[i] = onCurve(anchors, (double) i / FINE);
            length[i] = i == 0 ? 0 : length[i - 1] + curve[i].distance(curve[i - 1]);
        }
        int[] colours = new int[n];
        int j = 0;
        for (int s = 0; s < n; s++) {
            double wanted = length[FINE] * s / (n - 1);
            while (j < FINE - 1 && length[j + 1] < wanted) {
                j++;
            }
            double t = (wanted - length[j]) / (length[j + 1] - length[j]);
            colours[s] = curve[j].mix(curve[j + 1], t).toRgb();
        }
        return colours;
    }

    /** Uniform Catmull-Rom curve through the anchors, the end tangents those of the end segments. */
    private static Oklab onCurve(Oklab[] anchors, double t) {
        int segments = anchors.length - 1;
        int i = Math.min(segments - 1, (int) (t * segments));
        double u = t * segments - i;
        Oklab p1 = anchors[i];
        Oklab p2 = anchors[i + 1];
        Oklab p0 = i > 0 ? anchors[i - 1] : p2.mix(p1, 2);
        Oklab p3 = i + 2 <= segments ? anchors[i + 2] : p1.mix(p2, 2);
        return new Oklab(
                catmullRom(p0.l(), p1.l(), p2.l(), p3.l(), u),
                catmullRom(p0.a(), p1.a(), p2.a(), p3.a(), u),
                catmullRom(p0.b(), p1.b(), p2.b(), p3.b(), u));
    }

    private static double catmullRom(double p0, double p1, double p2, double p3, double u) {
        return p1 + 0.5 * u * (p2 - p0 + u * (2 * p0 - 5 * p1 + 4 * p2 - p3 + u * (3 * (p1 - p2) + p3 - p0)));
    }

    private static int[] joined(int[] lower, int[] upper) {
        int[] all = new int[lower.length + upper.length];
        System.arraycopy(lower, 0, all, 0, lower.length);
        System.arraycopy(upper, 0, all, lower.length, upper.length);
        return all;
    }
}
