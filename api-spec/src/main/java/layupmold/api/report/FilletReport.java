package layupmold.api.report;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;

/**
 * What was filled so that the cloth lies down.
 *
 * @param radiusMm least concave radius asked for
 * @param toolRadiusMm radius of the fillings on the tool
 * @param faceRadiusMm the same on the part's face
 * @param filledMm2 tool surface that fillings take the place of
 * @param deepestMm how much detail was given up at most
 * @param deepestAt where; absent if nothing was filled
 * @param places connected fillings, the deepest first
 * @param left places that could not be filled
 */
@Serdeable
public record FilletReport(
        Double radiusMm,
        Double toolRadiusMm,
        Double faceRadiusMm,
        Double filledMm2,
        Double deepestMm,
        PlaceFigures deepestAt,
        List<FilledPlace> places,
        List<LeftPlace> left) {
}
