package layupmold.geometry.report;

/**
 * The kept front surface.
 *
 * @param triangles triangles of the face
 * @param areaMm2 its area
 * @param removedAreaMm2 area of back wall and rim
 * @param openings number of openings
 * @param perimeterMm length of the perimeter
 */
public record FaceFigures(
        int triangles, double areaMm2, double removedAreaMm2, int openings, double perimeterMm) {
}
