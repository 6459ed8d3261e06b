package layupmold.geometry.report;

/**
 * The surface beyond the perimeter.
 *
 * @param planeZMm height of the level border in the mold frame
 * @param leastWidthMm least width of the border, measured on the finished outline
 * @param leastDraftDeg least draft of all but a thousandth of the wall's area, measured on its triangles
 */
public record FlangeFigures(double planeZMm, double leastWidthMm, double leastDraftDeg) {
}
