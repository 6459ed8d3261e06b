package layupmold.geometry.recipe;

/**
 * Holes through the border for screws that, turned from below, press the cured laminate off its mold. A shell gets a
 * boss around each. Taped over while the laminate is laid. All figures are common practice, no source.
 *
 * @param count how many; 0 for none
 * @param diameterMm of the hole, for a thread cut into it or an insert
 */
public record ScrewSpec(int count, double diameterMm) {

    public ScrewSpec {
        Limits.inRange("count", count, 0, 12);
        Limits.inRange("diameterMm", diameterMm, 2, 20);
    }

    public static ScrewSpec none() {
        return new ScrewSpec(0, 5);
    }
}
