package layupmold.geometry.simplify;

/**
 * How far simplification may go.
 *
 * @param deviationMm how far the surface may move
 * @param leastEdgeMm shorter edges are collapsed whatever they join
 * @param leastHeightMm no triangle becomes flatter than this
 */
public record SimplifyLimits(double deviationMm, double leastEdgeMm, double leastHeightMm) {
}
