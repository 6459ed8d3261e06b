package layupmold.api.report;

import io.micronaut.serde.annotation.Serdeable;

/**
 * The kept front surface.
 *
 * @param triangles triangles of the face
 * @param areaMm2 its area
 * @param removedAreaMm2 area of back wall and rim
 * @param openings number of openings
 * @param perimeterMm length of the perimeter
 */
@Serdeable
public record FaceReport(
        Integer triangles,
        Double areaMm2,
        Double removedAreaMm2,
        Integer openings,
        Double perimeterMm) {
}
