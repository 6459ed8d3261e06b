package layupmold.geometry.recipe;

/**
 * Pry notches: slots sunk into the upper edge of the border's outside, so that a wedge gets under the laminate's
 * flange. Filled with wax or clay while the laminate is laid. All figures are common practice, no source.
 *
 * @param count how many, evenly along the outline; 0 for none
 * @param widthMm along the outline
 * @param depthMm from the outline inwards
 * @param heightMm from the border down
 */
public record NotchSpec(int count, double widthMm, double depthMm, double heightMm) {

    public NotchSpec {
        Limits.inRange("count", count, 0, 12);
        Limits.inRange("widthMm", widthMm, 2, 60);
        Limits.inRange("depthMm", depthMm, 1, 30);
        Limits.inRange("heightMm", heightMm, 0.5, 20);
    }

    /** Two opposite each other, for a wedge 10 mm wide and up to 2 mm thick at its tip. */
    public static NotchSpec defaults() {
        return new NotchSpec(2, 12, 5, 2);
    }

    public static NotchSpec none() {
        return new NotchSpec(0, 12, 5, 2);
    }
}
