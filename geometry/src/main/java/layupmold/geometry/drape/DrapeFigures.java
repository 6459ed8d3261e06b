package layupmold.geometry.drape;

/**
 * What one draped ply measures.
 *
 * @param maxShearDeg largest shear over the sheet, unsigned
 * @param p95ShearDeg shear that 95 % of the sheet stays under
 * @param lockedMm2 area of the sheet where the shear passes the locking angle
 * @param bridgedMm2 area of the sheet in corners tighter than the cloth follows
 * @param deepestGapMm largest gap under the cloth in such a corner
 * @param surfaceMm2 area of the sheet
 * @param drapedMm2 area of the cloth as it lies, sheared: equals {@code surfaceMm2} if the net covers the sheet
 * @param flatMm2 area of the same cloth lying flat, without margin
 * @param uncoveredMm2 area of the sheet that the net could not reach
 */
public record DrapeFigures(
        double maxShearDeg, double p95ShearDeg, double lockedMm2, double bridgedMm2, double deepestGapMm,
        double surfaceMm2, double drapedMm2, double flatMm2, double uncoveredMm2) {

    /** How far draped and surface area differ, as a share of the covered surface. */
    public double areaImbalance() {
        return drapedMm2 / (surfaceMm2 - uncoveredMm2) - 1;
    }
}
