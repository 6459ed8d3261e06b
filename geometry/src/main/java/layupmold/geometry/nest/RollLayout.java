package layupmold.geometry.nest;

import java.util.List;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.geom.util.AffineTransformation;

/**
 * Pieces on a roll of cloth, x along the roll (the warp), y across it.
 *
 * @param rollWidthMm width of the roll
 * @param clearanceMm least distance between pieces and from the selvages
 * @param placed in the order of the pieces given
 * @param unplaced pieces wider than the roll
 * @param lengthMm length of roll used
 */
public record RollLayout(
        double rollWidthMm, double clearanceMm, List<Placed> placed, List<ClothPiece> unplaced, double lengthMm) {

    public RollLayout {
        placed = List.copyOf(placed);
        unplaced = List.copyOf(unplaced);
    }

    /**
     * A piece in its place: turned by half a turn or not at all, so that its warp stays the roll's, then moved.
     *
     * @param turned by 180°
     * @param xMm then moved along the roll
     * @param yMm and across it
     */
    public record Placed(ClothPiece piece, boolean turned, double xMm, double yMm) {

        /** From the piece's own coordinates to the roll's. */
        public AffineTransformation toRoll() {
            return AffineTransformation.scaleInstance(turned ? -1 : 1, turned ? -1 : 1).translate(xMm, yMm);
        }

        /** The piece's outline on the roll. */
        public Polygon outline() {
            return (Polygon) toRoll().transform(piece.outline());
        }
    }

    /** Area of all placed pieces, mm². */
    public double piecesMm2() {
        return placed.stream().mapToDouble(p -> p.piece().outline().getArea()).sum();
    }

    /** Share of the used cloth that is not a piece, 0 to 1. */
    public double wasteShare() {
        return lengthMm == 0 ? 0 : 1 - piecesMm2() / (rollWidthMm * lengthMm);
    }
}
