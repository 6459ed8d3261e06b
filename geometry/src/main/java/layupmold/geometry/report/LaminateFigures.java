package layupmold.geometry.report;

import java.util.List;

/**
 * The cured laminate.
 *
 * @param fibreVolumeFraction mean over the plies, 0 to 1
 * @param plyMm cured thickness of each ply, first at the tool
 * @param laminateMm their sum
 */
public record LaminateFigures(double fibreVolumeFraction, List<Double> plyMm, double laminateMm) {

    public LaminateFigures {
        plyMm = List.copyOf(plyMm);
    }
}
