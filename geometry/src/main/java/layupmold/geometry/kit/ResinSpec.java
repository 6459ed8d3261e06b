package layupmold.geometry.kit;

import layupmold.geometry.laminate.MaterialTables;

/**
 * The resin in hand; its data sheet decides every figure.
 *
 * @param name for the card
 * @param mixBy whether {@code hardenerPer100} counts mass or volume
 * @param hardenerPer100 parts of hardener to 100 parts of resin
 * @param resinDensity liquid resin, g/cm³
 * @param hardenerDensity liquid hardener, g/cm³
 * @param curedDensity g/cm³
 * @param potLifeMin minutes from mixing to gel of a 100 g cup at 20 °C
 * @param largestCupG most that may stand mixed in one cup without running hot, g
 * @param tackHours hours at 20 °C until the next coat keys without sanding
 * @param demoldHours hours at 20 °C until the part may leave the mold
 * @param fullCureHours hours at 20 °C until sanding and load
 * @param shelfMonths months that closed cans keep
 */
public record ResinSpec(
        String name, MixBy mixBy, double hardenerPer100, double resinDensity, double hardenerDensity,
        double curedDensity, double potLifeMin, double largestCupG, double tackHours, double demoldHours,
        double fullCureHours, double shelfMonths) {

    /** What a mix ratio counts. */
    public enum MixBy {
        MASS, VOLUME
    }

    public ResinSpec {
        above0("hardenerPer100", hardenerPer100);
        above0("resinDensity", resinDensity);
        above0("hardenerDensity", hardenerDensity);
        above0("curedDensity", curedDensity);
        above0("potLifeMin", potLifeMin);
        above0("largestCupG", largestCupG);
        above0("tackHours", tackHours);
        above0("demoldHours", demoldHours);
        above0("fullCureHours", fullCureHours);
        above0("shelfMonths", shelfMonths);
    }

    private static void above0(String name, double value) {
        if (!(value > 0 && value < 1e6)) {
            throw new IllegalArgumentException(name + " must lie above 0, not " + value);
        }
    }

    /** A row of the open resin table. */
    public static ResinSpec of(MaterialTables.Resin row) {
        return new ResinSpec(row.name(), MixBy.MASS, row.hardenerPer100(), row.resinDensity(), row.hardenerDensity(),
                row.curedDensity(), row.potLifeMin(), row.largestCupG(), row.tackHours(), row.demoldHours(),
                row.fullCureHours(), row.shelfMonths());
    }

    /** The same resin with its ratio given by volume. */
    public ResinSpec mixedByVolume(double per100) {
        return new ResinSpec(name, MixBy.VOLUME, per100, resinDensity, hardenerDensity, curedDensity, potLifeMin,
                largestCupG, tackHours, demoldHours, fullCureHours, shelfMonths);
    }

    /** Grams of hardener to one gram of resin. */
    public double hardenerPerResinByMass() {
        double ratio = hardenerPer100 / 100;
        return mixBy == MixBy.MASS ? ratio : ratio * hardenerDensity / resinDensity;
    }

    /**
     * Pot life at another temperature: ten degrees more halve it (trade rule of thumb, no source).
     *
     * @param celsius of the workshop and the resin in its can
     */
    public double potLifeMin(double celsius) {
        return potLifeMin * Math.pow(2, (20 - celsius) / 10);
    }
}
