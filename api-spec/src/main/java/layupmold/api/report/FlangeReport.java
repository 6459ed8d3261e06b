package layupmold.api.report;

import io.micronaut.serde.annotation.Serdeable;

/**
 * The surface beyond the perimeter.
 *
 * @param planeZMm height of the level border in the mold frame
 * @param leastWidthMm least width of the border, measured
 * @param leastDraftDeg least draft of all but a thousandth of the wall's area, measured
 */
@Serdeable
public record FlangeReport(
        Double planeZMm,
        Double leastWidthMm,
        Double leastDraftDeg) {
}
