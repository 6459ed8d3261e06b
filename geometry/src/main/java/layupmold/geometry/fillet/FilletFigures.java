package layupmold.geometry.fillet;

import java.util.List;
import layupmold.geometry.congruence.Isometry;
import layupmold.geometry.finding.Place;

/**
 * What was filled so that the cloth lies down. Depths and areas are on the tool surface, as if its corners were mitred.
 *
 * @param radiusMm least concave radius asked for
 * @param toolRadiusMm radius of the fillings on the tool: larger where the offset alone rounds more than was asked
 * @param faceRadiusMm the same before the offset
 * @param filledMm2 tool surface that fillings take the place of
 * @param deepestMm how far the filled surface is from the unfilled one, at most; 0 if nothing was filled
 * @param deepestAt where, on the part, frame of the stage unless moved; null if nothing was filled
 * @param places connected fillings, the deepest first, at most 100
 * @param left places that could not be filled, the largest first
 */
public record FilletFigures(
        double radiusMm,
        double toolRadiusMm,
        double faceRadiusMm,
        double filledMm2,
        double deepestMm,
        Place deepestAt,
        List<FilledPlace> places,
        List<LeftPlace> left) {

    public FilletFigures {
        places = List.copyOf(places);
        left = List.copyOf(left);
    }

    /** The same with places in another frame. */
    public FilletFigures in(Isometry frame) {
        return new FilletFigures(radiusMm, toolRadiusMm, faceRadiusMm, filledMm2, deepestMm, frame.apply(deepestAt),
                places.stream().map(place -> place.in(frame)).toList(), left.stream().map(place -> place.in(frame)).toList());
    }
}
