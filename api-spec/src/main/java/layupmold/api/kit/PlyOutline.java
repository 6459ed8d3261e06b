package layupmold.api.kit;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;

/**
 * One ply as it is cut; mm, x along the warp, the start mark in the origin, seen from the side that faces the maker.
 * Lines are x, y, x, y, …
 *
 * @param number from 1 at the tool
 * @param outline where to cut, closed
 * @param trimLines where the part will be trimmed after demolding, each closed
 * @param notches short strokes inwards where the threads through the start mark cross the outline
 * @param darts wedges to cut out, each closed
 * @param split where to cut the ply in two, or null
 */
@Serdeable
public record PlyOutline(
        Integer number,
        List<Double> outline,
        List<List<Double>> trimLines,
        List<List<Double>> notches,
        List<List<Double>> darts,
        List<Double> split) {
}
