package layupmold.api.report;

import io.micronaut.serde.annotation.Serdeable;

/**
 * Whether the mold stands the cure.
 *
 * @param softensC temperature at which the print material softens
 * @param cureC warmest the mold gets
 * @param marginC difference; negative if it softens
 * @param words how the material does, and what to do
 */
@Serdeable
public record HeatReport(
        Double softensC,
        Double cureC,
        Double marginC,
        String words) {
}
