package layupmold.api.report;

import io.micronaut.serde.annotation.Serdeable;

/**
 * What printing takes.
 *
 * @param printedMm3 volume of material
 * @param massG its mass
 * @param hours estimated print time
 * @param words the formulas with their numbers
 */
@Serdeable
public record FilamentReport(
        Double printedMm3,
        Double massG,
        Double hours,
        String words) {
}
