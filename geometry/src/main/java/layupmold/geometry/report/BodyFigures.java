package layupmold.geometry.report;

import layupmold.geometry.finding.Place;
import org.joml.Vector3d;

/**
 * The printed solid.
 *
 * @param kind "block" or "shell"
 * @param triangles triangles of the solid
 * @param sizeMm extent in the mold frame
 * @param volumeMm3 solid volume
 * @param leastWallMm least wall thickness, measured
 * @param leastWallPlace where, in the posted mesh's frame
 */
public record BodyFigures(
        String kind, int triangles, Vector3d sizeMm, double volumeMm3, double leastWallMm, Place leastWallPlace) {
}
