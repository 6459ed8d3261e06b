package layupmold.geometry.inspect;

import java.util.List;

/**
 * Area by value, in bins of equal width.
 *
 * @param from lower edge of the first bin
 * @param to upper edge of the last bin
 * @param areaMm2 area in each bin, mm²; what lies below {@code from} or above {@code to} is in the first or last bin
 */
public record Histogram(double from, double to, List<Double> areaMm2) {

    public Histogram {
        areaMm2 = List.copyOf(areaMm2);
    }
}
