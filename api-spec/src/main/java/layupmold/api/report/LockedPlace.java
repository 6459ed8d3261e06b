package layupmold.api.report;

import io.micronaut.serde.annotation.Serdeable;

/**
 * A connected piece of undercut.
 *
 * @param at where it is deepest
 * @param areaMm2 undercut area in it
 * @param depthMm how far mold or part must spring there; null if no way out was found
 */
@Serdeable
public record LockedPlace(
        PlaceFigures at,
        Double areaMm2,
        Double depthMm) {
}
