package layupmold.geometry.recipe;

import java.util.Objects;

/**
 * One layer of dry cloth.
 *
 * @param weave how the yarns cross
 * @param arealWeightGsm fibre areal weight, g/m²
 * @param fibreDensity g/cm³
 * @param angleDeg warp direction in the mold's plan, degrees from its x axis
 * @param fibre its generic trade name, for lists
 * @param tow filaments a yarn in trade notation such as 3K, for lists, or empty
 */
public record Ply(
        Weave weave, double arealWeightGsm, double fibreDensity, double angleDeg, String fibre, String tow) {

    public Ply {
        Limits.inRange("arealWeightGsm", arealWeightGsm, 10, 5000);
        Limits.inRange("fibreDensity", fibreDensity, 0.5, 10);
        Limits.inRange("angleDeg", angleDeg, -360, 360);
        Objects.requireNonNull(fibre);
        Objects.requireNonNull(tow);
    }

    /** Carbon of a tow that is not said. */
    public Ply(Weave weave, double arealWeightGsm, double fibreDensity, double angleDeg) {
        this(weave, arealWeightGsm, fibreDensity, angleDeg, "carbon", "");
    }

    /** 210 g/m² carbon 2/2 twill: light enough for small, detailed parts (common practice, no source). */
    public static Ply carbonTwill(double angleDeg) {
        return new Ply(Weave.TWILL_2X2, 210, 1.78, angleDeg);
    }
}
