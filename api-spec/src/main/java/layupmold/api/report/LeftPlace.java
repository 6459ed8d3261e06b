package layupmold.api.report;

import io.micronaut.serde.annotation.Serdeable;

/**
 * A place whose corners could not be filled.
 *
 * @param at where
 * @param reachMm how far around it fillings are not complete
 */
@Serdeable
public record LeftPlace(
        PlaceFigures at,
        Double reachMm) {
}
