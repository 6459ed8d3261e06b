package layupmold.geometry.inspect;

/**
 * Whether the mold stands the cure.
 *
 * @param softensC temperature at which the print material softens
 * @param cureC warmest the mold gets, as the recipe says
 * @param marginC how much cooler that is; negative if the mold softens
 * @param words how the material does, and what to do
 */
public record HeatFigures(double softensC, double cureC, double marginC, String words) {
}
