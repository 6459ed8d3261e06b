package layupmold.api.report;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;

/**
 * How the cloth lies on the tool.
 *
 * @param clothRadiusMm least concave radius that the cloth follows
 * @param leastRadiusMm least concave radius of the surface; the cap if none is tighter
 * @param leastRadiusAt where, or null
 * @param tightMm2 area with a tighter radius than the cloth's
 * @param bridges deepest gap first
 * @param histogram area by concave radius, mm
 * @param lostDetailMm width of the widest line that release layer and finish coat close
 * @param lostDetailMm2 tool area as fine as that
 * @param clothMm2 area that carries cloth, border included
 * @param toolMm2 area of tool and caps
 * @param capMm radius beyond which curves are not told apart
 */
@Serdeable
public record FabricReport(
        Double clothRadiusMm,
        Double leastRadiusMm,
        PlaceFigures leastRadiusAt,
        Double tightMm2,
        List<BridgePlace> bridges,
        HistogramFigures histogram,
        Double lostDetailMm,
        Double lostDetailMm2,
        Double clothMm2,
        Double toolMm2,
        Double capMm) {
}
