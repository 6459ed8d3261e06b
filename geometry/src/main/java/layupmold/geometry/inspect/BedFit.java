package layupmold.geometry.inspect;

import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.Printer;

/**
 * How a solid best stands on the printer's bed, turned about z.
 *
 * @param fits whether it stands within the bed and under the printer's height
 * @param turnDeg turn of the mold, counter-clockwise seen from above, 0 up to 180: 0 if it fits as it is, else the turn
 *     at which it fits or comes nearest to
 * @param widthMm extent along the bed's x so turned
 * @param depthMm extent along the bed's y so turned
 * @param heightMm height
 * @param leastBedXMm x side of the least bed in the proportions of the given one that holds it at some turn
 * @param leastBedYMm y side of that bed
 */
public record BedFit(boolean fits, double turnDeg, double widthMm, double depthMm, double heightMm,
        double leastBedXMm, double leastBedYMm) {

    /** Coordinates are 32-bit floats: a mold as wide as its bed may come out wider by this share. */
    private static final double ROUNDING = 1e-6;

    static BedFit of(TriangleMesh solid, Printer printer) {
        double[] box = solid.bounds();
        double height = box[5] - box[2];
        PlanOutline outline = PlanOutline.of(solid);
        PlanOutline.Turn least = outline.leastTurn(printer.bedXMm(), printer.bedYMm());
        PlanOutline.Turn asItIs = outline.at(0, printer.bedXMm(), printer.bedYMm());
        PlanOutline.Turn chosen = asItIs.scale() <= 1 + ROUNDING ? asItIs : least;
        return new BedFit(chosen.scale() <= 1 + ROUNDING && height <= printer.heightMm() * (1 + ROUNDING),
                Math.toDegrees(chosen.radians()), chosen.widthMm(), chosen.depthMm(), height,
                least.scale() * printer.bedXMm(), least.scale() * printer.bedYMm());
    }

    /** The same of the mirror image, which turns the other way. */
    BedFit mirrored() {
        return new BedFit(fits, turnDeg == 0 ? 0 : 180 - turnDeg, widthMm, depthMm, heightMm, leastBedXMm, leastBedYMm);
    }
}
