package layupmold.api.recipe;

import io.micronaut.serde.annotation.Serdeable;

/**
 * The resin in hand; what is absent is taken from a row of the open table.
 *
 * @param like that row
 * @param name for the work card
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
@Serdeable
public record ResinRecipe(
        ResinKind like,
        String name,
        MixBasis mixBy,
        Double hardenerPer100,
        Double resinDensity,
        Double hardenerDensity,
        Double curedDensity,
        Double potLifeMin,
        Double largestCupG,
        Double tackHours,
        Double demoldHours,
        Double fullCureHours,
        Double shelfMonths) {
}
