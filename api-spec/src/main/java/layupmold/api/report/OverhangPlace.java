package layupmold.api.report;

import io.micronaut.serde.annotation.Serdeable;

/**
 * A connected piece of surface that prints over air.
 *
 * @param at where
 * @param areaMm2 its area
 */
@Serdeable
public record OverhangPlace(
        PlaceFigures at,
        Double areaMm2) {
}
