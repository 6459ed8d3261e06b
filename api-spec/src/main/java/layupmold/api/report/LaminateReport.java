package layupmold.api.report;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;

/**
 * The cured laminate.
 *
 * @param fibreVolumeFraction mean over the plies, 0 to 1
 * @param plyMm cured thickness of each ply, first at the tool
 * @param laminateMm their sum
 * @param fibreGsm fibre in a square metre of laminate, g/m²
 * @param matrixGsm cured resin in a square metre of laminate, g/m²
 * @param arealWeightGsm both together: mass of a square metre without finish coat, g/m²
 * @param partG mass of the kept face in laminate, without finish coat, g
 */
@Serdeable
public record LaminateReport(
        Double fibreVolumeFraction,
        List<Double> plyMm,
        Double laminateMm,
        Double fibreGsm,
        Double matrixGsm,
        Double arealWeightGsm,
        Double partG) {
}
