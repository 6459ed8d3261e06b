package layupmold.geometry.mesh.prepare;

import java.util.Locale;
import java.util.Optional;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.recipe.LengthUnit;

/** Doubts a size that no laminated part has, and names the unit that the file probably means. */
final class SizeCheck {

    private static final double LEAST_MM = 5;
    private static final double MOST_MM = 5000;
    /** Sizes that such parts commonly have (common practice, no source). */
    private static final double USUAL_LEAST_MM = 40;
    private static final double USUAL_MOST_MM = 2500;
    private static final LengthUnit[] LIKELY = {LengthUnit.MM, LengthUnit.M, LengthUnit.INCH, LengthUnit.CM,
        LengthUnit.FOOT, LengthUnit.MICRON};

    private SizeCheck() {
    }

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
        double limit = largestMm < LEAST_MM ? LEAST_MM : MOST_MM;
        return Optional.of(Finding.warning("clean", "size-implausible",
                "taken in " + name(unit) + " the part measures " + SizeText.of(largestMm) + " mm" + guess)
                .measured(largestMm, limit, "mm")
                .advising("Check the unit in the recipe."));
    }

    private static String name(LengthUnit unit) {
        return unit.name().toLowerCase(Locale.ROOT);
    }
}
