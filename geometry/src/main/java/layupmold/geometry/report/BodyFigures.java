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
 * @param blockVolumeMm3 volume of the block, without notches and holes, that would carry the same tool surface
 * @param feet that it stands on; 0 for a block, which stands on its base
 * @param notches pry notches in the border
 * @param screwHoles holes for screws in the border
 * @param tipDeg least angle by which the empty mold can lean before it tips over
 * @param leastWallMm least wall thickness, measured
 * @param leastWallPlace where, in the posted mesh's frame
 */
public record BodyFigures(
        String kind, int triangles, Vector3d sizeMm, double volumeMm3, double blockVolumeMm3, int feet, int notches,
        int screwHoles, double tipDeg, double leastWallMm, Place leastWallPlace) {
}
