package layupmold.geometry.body;

/**
 * What a body consists of, for the report.
 *
 * @param feet that it stands on; 0 for a block
 * @param notches pry notches cut
 * @param screwHoles holes cut
 * @param tipDeg least angle by which the empty mold can lean before it tips over
 * @param blockMm3 volume of the block, without notches and holes, that would carry the same tool surface
 */
public record BodyParts(int feet, int notches, int screwHoles, double tipDeg, double blockMm3) {
}
