package layupmold.geometry.opening;

/**
 * A narrow ring of cap triangles along a trim loop, cut so that sinking its vertices by {@link CappedFace#trimProfile}
 * times a depth engraves a V groove along the trim loop.
 *
 * @param widthMm distance of {@code inner} from the trim loop, within a tenth
 * @param valley vertices of the groove's deepest line, in the direction of the trim loop
 * @param inner vertices of the groove's inner edge, in the direction of the trim loop
 */
public record TrimRing(double widthMm, int[] valley, int[] inner) {
}
