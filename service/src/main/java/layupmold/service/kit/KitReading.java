package layupmold.service.kit;

import java.util.ArrayList;
import java.util.List;
import layupmold.api.kit.CoatFigures;
import layupmold.api.kit.CoatStage;
import layupmold.api.kit.KitDocument;
import layupmold.api.kit.KitOutlines;
import layupmold.api.kit.PlyFigures;
import layupmold.api.kit.ResinFigures;
import layupmold.geometry.kit.ClothLayouts;
import layupmold.geometry.kit.LayupNeeds;
import layupmold.geometry.nest.ClothPiece;
import layupmold.geometry.recipe.Weave;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Polygon;

/** What laying up takes, read back from a kit's documents. */
public final class KitReading {

    private static final GeometryFactory FACTORY = new GeometryFactory();

    private KitReading() {
    }

    /** @param name of the piece */
    public static LayupNeeds needs(String name, KitDocument kit, KitOutlines outlines) {
        List<ClothLayouts.Piece> pieces = new ArrayList<>();
        for (int k = 0; k < kit.plies().size(); k++) {
            PlyFigures ply = kit.plies().get(k);
            pieces.add(new ClothLayouts.Piece(cloth(ply), new ClothPiece(
                    name + " " + ply.number() + "/" + kit.plies().size(), polygon(outlines.plies().get(k).outline()))));
        }
        ResinFigures resin = kit.resin();
        int finishCoats = (int) resin.coats().stream().filter(c -> c.stage() == CoatStage.FINISH).count();
        return new LayupNeeds(name, pieces, resin.laminateResin(), resin.resinG(), resin.hardenerG(),
                resin.shelfMonths(), resin.finishResin(), resin.finishResinG(), resin.finishHardenerG(),
                resin.coats().stream().mapToInt(CoatFigures::cups).sum(), kit.plies().size() + finishCoats,
                resin.finishMm2());
    }

    private static ClothLayouts.Cloth cloth(PlyFigures ply) {
        return new ClothLayouts.Cloth(Weave.valueOf(ply.weave().name()), ply.arealWeightGsm(), ply.fibreDensity(),
                ply.fibre(), ply.tow() == null ? "" : ply.tow());
    }

    private static Polygon polygon(List<Double> xy) {
        Coordinate[] ring = new Coordinate[xy.size() / 2];
        for (int k = 0; k < ring.length; k++) {
            ring[k] = new Coordinate(xy.get(2 * k), xy.get(2 * k + 1));
        }
        return FACTORY.createPolygon(ring);
    }
}
