package layupmold.geometry.inspect;

import java.util.List;
import layupmold.geometry.congruence.Isometry;
import layupmold.geometry.finding.Place;

/**
 * How the cloth lies on the tool, as {@link FabricFit} defines it.
 *
 * @param clothRadiusMm least concave radius that the cloth follows
 * @param leastRadiusMm least concave radius of the surface; {@code capMm} if none is tighter
 * @param leastRadiusAt where, mold frame unless moved, mm; null if none is tighter than the cap
 * @param tightMm2 area whose concave radius is under the cloth's
 * @param bridges deepest gap first, at most 100
 * @param histogram area by concave radius from 0 to {@code capMm}; what is flatter or convex is in the last bin
 * @param lostDetailMm width of the widest line of the tool that release layer and finish coat close together
 * @param lostDetailMm2 area bent tighter, either way, than release layer and finish coat are thick
 * @param clothMm2 area that carries cloth: tool, caps, wall, edge and border
 * @param toolMm2 tool and caps alone
 * @param capMm radius beyond which curves are not told apart
 */
public record FabricFigures(
        double clothRadiusMm,
        double leastRadiusMm,
        Place leastRadiusAt,
        double tightMm2,
        List<Bridge> bridges,
        Histogram histogram,
        double lostDetailMm,
        double lostDetailMm2,
        double clothMm2,
        double toolMm2,
        double capMm) {

    public FabricFigures {
        bridges = List.copyOf(bridges);
    }

    /** The same with places in another frame. */
    public FabricFigures in(Isometry frame) {
        return new FabricFigures(clothRadiusMm, leastRadiusMm, frame.apply(leastRadiusAt), tightMm2,
                bridges.stream().map(bridge -> bridge.in(frame)).toList(), histogram, lostDetailMm, lostDetailMm2,
                clothMm2, toolMm2, capMm);
    }
}
