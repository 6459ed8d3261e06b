package layupmold.geometry.kit;

import layupmold.geometry.drape.FlatPattern;
import layupmold.geometry.nest.ClothPiece;
import layupmold.geometry.recipe.Ply;

/**
 * The flat template of one ply.
 *
 * @param part name of the part
 * @param number of the ply, from 1 at the tool
 * @param of number of plies
 * @param ply the cloth
 * @param pattern what to cut
 */
public record PlyTemplate(String part, int number, int of, Ply ply, FlatPattern pattern) {

    /** The piece of cloth, named after part and ply. */
    public ClothLayouts.Piece piece() {
        return new ClothLayouts.Piece(ClothLayouts.Cloth.of(ply),
                new ClothPiece(part + " " + number + "/" + of, pattern.outline()));
    }

    /** Cloth as cut, margin included and darts taken out, mm². */
    public double clothMm2() {
        double darts = pattern.darts().stream().mapToDouble(d -> d.getArea()).sum();
        return pattern.outline().getArea() - darts;
    }
}
