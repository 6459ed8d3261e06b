package layupmold.geometry.laminate;

import java.util.List;

/**
 * The cured laminate.
 *
 * @param fibreVolumeFraction mean over the plies by volume, 0 to 1
 * @param plyMm cured thickness of each ply, first at the tool
 * @param laminateMm their sum
 * @param fibreGsm fibre in a square metre of laminate, g/m²
 * @param matrixGsm cured resin in a square metre of laminate, g/m²
 */
public record LaminateFigures(
        double fibreVolumeFraction, List<Double> plyMm, double laminateMm, double fibreGsm, double matrixGsm) {

    public LaminateFigures {
        plyMm = List.copyOf(plyMm);
    }

    /** Mass of a square metre of laminate without finish coat, g/m². */
    public double arealWeightGsm() {
        return fibreGsm + matrixGsm;
    }

    /** Mass of {@code areaMm2} of laminate without finish coat, g. */
    public double massG(double areaMm2) {
        return arealWeightGsm() * areaMm2 * 1e-6;
    }
}
