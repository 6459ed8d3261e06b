package layupmold.geometry.render;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * How the values of a map become colours and legend ticks.
 *
 * @param title what is shown, for people ("Wall thickness")
 * @param unit "mm" or "deg"
 * @param low value of the first colour
 * @param high value of the last colour; above {@code low}
 * @param middle value of the middle colour, strictly between; the map is linear on either side of it
 * @param map the colours
 * @param limit a value to mark in the legend, or NaN
 */
public record ValueScale(
        String title, String unit, double low, double high, double middle, ColourMap map, double limit) {

    public ValueScale {
        if (!(low < middle && middle < high) || Double.isInfinite(low) || Double.isInfinite(high)) {
            throw new IllegalArgumentException("a scale needs finite low < middle < high");
        }
    }

    /** Low to high in one sweep. */
    public static ValueScale sequential(String title, String unit, double low, double high) {
        return new ValueScale(title, unit, low, high, (low + high) / 2, ColourMap.SEQUENTIAL, Double.NaN);
    }

    /** Below and above a limit in two hues, the limit itself near white and marked. */
    public static ValueScale about(double limit, String title, String unit, double low, double high) {
        return new ValueScale(title, unit, low, high, limit, ColourMap.DIVERGING, limit);
    }

    /** Where a value falls on the colour map, 0 to 1, clamped; NaN stays NaN. */
    public double fraction(double value) {
        double t = value <= middle
                ? 0.5 * (value - low) / (middle - low)
                : 0.5 + 0.5 * (value - middle) / (high - middle);
        return Double.isNaN(value) ? Double.NaN : Math.max(0, Math.min(1, t));
    }

    /** 0xRRGGBB of a value; {@link ColourMap#NO_VALUE} for NaN. */
    public int colour(double value) {
        return map.at(fraction(value));
    }

    /**
     * Round values inside the scale, ascending, about {@code wanted} of them, in steps of 1, 2 or 5 times a power of
     * ten (Heckbert, "Nice numbers for graph labels", Graphics Gems 1990).
     */
    public List<Double> ticks(int wanted) {
        double step = niceStep((high - low) / Math.max(1, wanted));
        List<Double> ticks = new ArrayList<>();
        long first = (long) Math.ceil(low / step - 1e-9);
        long last = (long) Math.floor(high / step + 1e-9);
        for (long k = first; k <= last; k++) {
            ticks.add(k * step);
        }
        return List.copyOf(ticks);
    }

    /** A value of the scale with as many decimals as steps of {@code (high - low) / wanted} call for. */
    public String label(double value, int wanted) {
        double step = niceStep((high - low) / Math.max(1, wanted));
        int decimals = Math.max(0, (int) Math.ceil(-Math.log10(step) - 1e-9));
        String number = String.format(Locale.ROOT, "%." + decimals + "f", value);
        return number.replaceFirst("^-(?=[0.]*$)", "").replace('-', '\u2212');
    }

    private static double niceStep(double rough) {
        double power = Math.pow(10, Math.floor(Math.log10(rough)));
        double lead = rough / power;
        return power * (lead < 1.5 ? 1 : lead < 3.5 ? 2 : lead < 7.5 ? 5 : 10);
    }
}
