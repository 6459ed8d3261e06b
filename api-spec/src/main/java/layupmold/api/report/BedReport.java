package layupmold.api.report;

import io.micronaut.serde.annotation.Serdeable;

/**
 * How the mold best stands on the printer's bed.
 *
 * @param fits whether bed and height hold it
 * @param turnDeg turn of the mold, counter-clockwise seen from above, 0 up to 180
 * @param widthMm extent along the bed's x so turned
 * @param depthMm extent along the bed's y so turned
 * @param heightMm height
 * @param leastBedXMm x side of the least bed of the same proportions that holds it
 * @param leastBedYMm y side of that bed
 */
@Serdeable
public record BedReport(
        Boolean fits,
        Double turnDeg,
        Double widthMm,
        Double depthMm,
        Double heightMm,
        Double leastBedXMm,
        Double leastBedYMm) {
}
