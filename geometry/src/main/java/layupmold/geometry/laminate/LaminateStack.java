package layupmold.geometry.laminate;

import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.recipe.Layup;
import layupmold.geometry.recipe.Ply;

/**
 * Thickness and mass of a cured laminate from dry cloth and resin by the rule of mixtures, voids neglected.
 *
 * <p>A ply of areal weight FAW cures to {@code t = FAW / (ρf · Vf)}; the fibre volume fraction follows from the fibre
 * weight fraction by {@code Vf = (Wf/ρf) / (Wf/ρf + (1 − Wf)/ρm)}. Densities are in g/cm³, areal weights in g/m².
 */
public final class LaminateStack {

    private LaminateStack() {
    }

    /** Figures of the whole stack, first ply at the tool. O(plies). */
    public static LaminateFigures of(Layup layup) {
        double wf = layup.fibreWeightFraction();
        List<Double> plyMm = new ArrayList<>();
        double laminateMm = 0;
        double fibreMm = 0;
        double fibreGsm = 0;
        for (Ply ply : layup.plies()) {
            double vf = fibreVolumeFraction(wf, ply.fibreDensity(), layup.matrixDensity());
            double t = curedPlyMm(ply.arealWeightGsm(), ply.fibreDensity(), vf);
            plyMm.add(t);
            laminateMm += t;
            fibreMm += t * vf;
            fibreGsm += ply.arealWeightGsm();
        }
        return new LaminateFigures(fibreMm / laminateMm, plyMm, laminateMm, fibreGsm, fibreGsm * (1 - wf) / wf);
    }

    /**
     * @param fibreWeightFraction 0 to 1
     * @param fibreDensity g/cm³
     * @param matrixDensity g/cm³
     * @return fibre volume fraction, 0 to 1
     */
    public static double fibreVolumeFraction(double fibreWeightFraction, double fibreDensity, double matrixDensity) {
        double fibre = fibreWeightFraction / fibreDensity;
        return fibre / (fibre + (1 - fibreWeightFraction) / matrixDensity);
    }

    /**
     * @param arealWeightGsm fibre areal weight, g/m²
     * @param fibreDensity g/cm³
     * @param fibreVolumeFraction above 0, at most 1
     * @return cured thickness, mm
     */
    public static double curedPlyMm(double arealWeightGsm, double fibreDensity, double fibreVolumeFraction) {
        return arealWeightGsm / (1000 * fibreDensity * fibreVolumeFraction);
    }
}
