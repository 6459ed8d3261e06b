package layupmold.geometry.nest;

import org.locationtech.jts.geom.Polygon;

/**
 * A piece to be cut from a roll.
 *
 * @param name for the layout
 * @param outline mm, x along the warp
 */
public record ClothPiece(String name, Polygon outline) {
}
