package layupmold.geometry.mesh.prepare;

import java.util.Locale;
import java.util.Optional;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.finding.Severity;
import layupmold.geometry.recipe.LengthUnit;

/**
 * Doubts a size that no laminated part has, refuses one that no mold could be made for, and names the unit that the file
 * probably means.
 */
final class SizeCheck {

    private static final double LEAST_MM = 5;
    private static final double MOST_MM = 5000;
    private static final double LEAST_MADE_MM = 0.1;
    private static final double MOST_MADE_MM = 20_000;
    /** Sizes that such parts commonly have (common practice, no source). */
    private static final double USUAL_LEAST_MM = 40;
    private static final double USUAL_MOST_MM = 2500;
    private static final LengthUnit[] LIKELY = {LengthUnit.MM, LengthUnit.M, LengthUnit.INCH, LengthUnit.CM,
        LengthUnit.FOOT, LengthUnit.MICRON};

    private SizeCheck() {
    }

    /** @throws Rejection if the part is too small or too large to make a mold for */
    static Optional<Finding> check(double largestMm, LengthUnit unit) {
        if (largestMm >= LEAST_MM && largestMm <= MOST_MM) {
            return Optional.empty();
        }
        double number = largestMm / unit.inMm();
        String guess = "";
        for (LengthUnit other : LIKELY) {
            double mm = number * other.inMm();
            if (other != unit && mm >= USUAL_LEAST_MM && mm <= USUAL_MOST_MM) {
                guess = "; in " + name(other) + " it would measure " + SizeText.of(mm) + " mm";
                break;
            }
        }
        boolean made = largestMm >= LEAST_MADE_MM && largestMm <= MOST_MADE_MM;
        double least = made ? LEAST_MM : LEAST_MADE_MM;
        double most = made ? MOST_MM : MOST_MADE_MM;
        Finding finding = new Finding(made ? Severity.WARNING : Severity.ERROR, "clean", "size-implausible",
                "taken in " + name(unit) + " the part measures " + SizeText.of(largestMm) + " mm" + guess,
                null, largestMm, largestMm < LEAST_MM ? least : most, "mm", "Check the unit in the recipe.");
        if (!made) {
            throw new Rejection(finding);
        }
        return Optional.of(finding);
    }

    private static String name(LengthUnit unit) {
        return unit.name().toLowerCase(Locale.ROOT);
    }
}
