package layupmold.api.report;

import io.micronaut.serde.annotation.Serdeable;

/**
 * A connected filled place.
 *
 * @param at where it is deepest
 * @param areaMm2 tool surface that the filling takes the place of
 * @param depthMm how far the filled tool surface is from the corner, at most
 */
@Serdeable
public record FilledPlace(
        PlaceFigures at,
        Double areaMm2,
        Double depthMm) {
}
