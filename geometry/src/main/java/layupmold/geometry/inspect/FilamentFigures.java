package layupmold.geometry.inspect;

/**
 * What printing the solid takes.
 *
 * @param printedMm3 volume of material: walls and skins full, the rest at the infill's share
 * @param massG its mass
 * @param hours estimated print time
 * @param words the formulas with their numbers
 */
public record FilamentFigures(double printedMm3, double massG, double hours, String words) {
}
