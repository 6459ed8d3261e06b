package layupmold.geometry.mesh.prepare;

import layupmold.geometry.finding.Place;
import org.joml.Vector3d;

/**
 * A connected piece of the posted mesh that was left out.
 *
 * @param place the middle of its bounds, with its first posted triangle
 * @param sizeMm extent along the posted axes
 * @param areaMm2 surface area
 * @param triangles number of triangles
 */
public record Piece(Place place, Vector3d sizeMm, double areaMm2, int triangles) {
}
