package layupmold.geometry.recipe;

import java.util.List;

/**
 * What the part is made of, first ply at the tool.
 *
 * @param plies first ply against the release layer; at least one
 * @param fibreWeightFraction share of fibre in the cured laminate by mass, 0.1 to 0.9
 * @param matrixDensity cured resin, g/cm³
 * @param finishCoatMm clear coat added after demolding, mm
 */
public record Layup(List<Ply> plies, double fibreWeightFraction, double matrixDensity, double finishCoatMm) {

    public Layup {
        plies = List.copyOf(plies);
        if (plies.isEmpty() || plies.size() > 100) {
            throw new IllegalArgumentException("a layup needs 1 to 100 plies");
        }
        Limits.inRange("fibreWeightFraction", fibreWeightFraction, 0.1, 0.9);
        Limits.inRange("matrixDensity", matrixDensity, 0.5, 5);
        Limits.inRange("finishCoatMm", finishCoatMm, 0, 3);
    }

    /**
     * Two plies of light carbon twill at 0° and 45° laid up by hand, as much resin as cloth by mass (common practice,
     * no source), and a thin clear coat.
     */
    public static Layup defaults() {
        return new Layup(List.of(Ply.carbonTwill(0), Ply.carbonTwill(45)), 0.5, 1.15, 0.1);
    }
}
