package layupmold.api.report;

import io.micronaut.serde.annotation.Serdeable;

/**
 * A connected place where the cloth spans a corner.
 *
 * @param at where the gap is deepest
 * @param areaMm2 surface that the cloth does not touch
 * @param radiusMm least concave radius there
 * @param gapMm deepest gap under the cloth
 */
@Serdeable
public record BridgePlace(
        PlaceFigures at,
        Double areaMm2,
        Double radiusMm,
        Double gapMm) {
}
