package layupmold.api.report;

import io.micronaut.serde.annotation.Serdeable;

/**
 * A connected piece of wall thinner than the limit.
 *
 * @param at where it is thinnest
 * @param areaMm2 area of the wall
 * @param leastMm least thickness
 */
@Serdeable
public record ThinPlace(
        PlaceFigures at,
        Double areaMm2,
        Double leastMm) {
}
