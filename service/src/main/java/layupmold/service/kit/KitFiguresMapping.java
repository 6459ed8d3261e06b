package layupmold.service.kit;

import java.util.ArrayList;
import java.util.List;
import layupmold.api.kit.ClothFigures;
import layupmold.api.kit.CoatFigures;
import layupmold.api.kit.CoatStage;
import layupmold.api.kit.KitDocument;
import layupmold.api.kit.KitFile;
import layupmold.api.kit.KitOutlines;
import layupmold.api.kit.PlyFigures;
import layupmold.api.kit.PlyInOnePiece;
import layupmold.api.kit.PlyOutline;
import layupmold.api.kit.ResinFigures;
import layupmold.api.kit.SplitFigures;
import layupmold.api.recipe.WeaveKind;
import layupmold.geometry.drape.DrapeFigures;
import layupmold.geometry.drape.DrapedPly;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.kit.ClothLayouts;
import layupmold.geometry.kit.KitSpec;
import layupmold.geometry.kit.LayupKit;
import layupmold.geometry.kit.PlyTemplate;
import layupmold.geometry.kit.ResinPlan;
import layupmold.geometry.nest.ClothPiece;
import layupmold.service.making.ReportMapping;
import layupmold.service.recipe.AcceptedRecipe;
import org.joml.Vector3d;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.LineString;

/** Kits from the geometry to the contract. */
final class KitFiguresMapping {

    private KitFiguresMapping() {
    }

    /** @param findings of printing, told after the kit's own */
    static KitDocument document(LayupKit kit, List<ClothLayouts.ClothLayout> cloths, AcceptedRecipe recipe,
            List<Finding> findings, List<KitFile> files) {
        List<Finding> all = new ArrayList<>(kit.findings());
        cloths.forEach(cloth -> all.addAll(cloth.findings()));
        all.addAll(findings);
        double partMm2 = kit.sheet().trimmed().area();
        double finishG = partMm2 * 1e-3 * recipe.geometry().layup().finishCoatMm()
                * recipe.kit().coatResin().curedDensity();
        return new KitDocument(kit.part(), kit.laminate().laminateMm(), partMm2, kit.laminate().arealWeightGsm(),
                kit.partG(), finishG, kit.templates().stream().map(t -> ply(kit, t)).toList(),
                cloths.stream().map(KitFiguresMapping::cloth).toList(), resin(kit.resin(), recipe.kit()),
                ReportMapping.REPORTS.toContract(all), files);
    }

    private static PlyFigures ply(LayupKit kit, PlyTemplate template) {
        int index = template.number() - 1;
        DrapedPly draped = kit.drapes().get(index);
        DrapeFigures f = draped.figures();
        Vector3d start = draped.start();
        DrapedPly.Split split = draped.split();
        return new PlyFigures(template.number(), WeaveKind.valueOf(template.ply().weave().name()),
                template.ply().arealWeightGsm(), template.ply().fibreDensity(), template.ply().angleDeg(),
                template.ply().fibre(),
                orNull(template.ply().tow()), kit.laminate().plyMm().get(index),
                List.of(start.x, start.y, start.z), f.surfaceMm2(), f.drapedMm2(), f.flatMm2(), template.clothMm2(),
                f.maxShearDeg(), f.p95ShearDeg(), draped.spec().lockingDeg(), f.lockedMm2(), f.uncoveredMm2(),
                f.bridgedMm2(), draped.spec().leastRadiusMm(), f.deepestGapMm(), template.pattern().darts().size(),
                inOnePiece(draped.inOnePiece()), split == null ? null : new SplitFigures(split.alongWarp(),
                        split.atMm(), split.amissShare(), split.maxShearDeg()));
    }

    private static PlyInOnePiece inOnePiece(DrapeFigures f) {
        return f == null ? null : new PlyInOnePiece(f.maxShearDeg(), f.lockedMm2(), f.uncoveredMm2());
    }

    static KitOutlines outlines(LayupKit kit) {
        return new KitOutlines(kit.templates().stream().map(t -> new PlyOutline(t.number(),
                numbers(t.pattern().outline().getExteriorRing()),
                t.pattern().trimLines().stream().map(KitFiguresMapping::numbers).toList(),
                t.pattern().notches().stream().map(KitFiguresMapping::numbers).toList(),
                t.pattern().darts().stream().map(dart -> numbers(dart.getExteriorRing())).toList(),
                t.pattern().split() == null ? null : numbers(t.pattern().split()))).toList());
    }

    /** To a thousandth of a millimetre. */
    private static List<Double> numbers(LineString line) {
        List<Double> xy = new ArrayList<>();
        for (Coordinate c : line.getCoordinates()) {
            xy.add(Math.round(1000 * c.x) / 1000.0);
            xy.add(Math.round(1000 * c.y) / 1000.0);
        }
        return xy;
    }

    private static String orNull(String word) {
        return word.isEmpty() ? null : word;
    }

    static ClothFigures cloth(ClothLayouts.ClothLayout cloth) {
        return new ClothFigures(WeaveKind.valueOf(cloth.cloth().weave().name()), cloth.cloth().arealWeightGsm(),
                cloth.cloth().fibreDensity(), cloth.cloth().fibre(), orNull(cloth.cloth().tow()), cloth.layout().rollWidthMm(), cloth.layout().lengthMm(),
                cloth.layout().wasteShare(), cloth.layout().placed().size(),
                cloth.layout().unplaced().stream().map(ClothPiece::name).toList());
    }

    private static ResinFigures resin(ResinPlan plan, KitSpec spec) {
        return new ResinFigures(spec.resin().name(), spec.coatResin().name(), plan.clothG(), plan.resinG(), plan.hardenerG(), plan.finishResinG(),
                plan.finishHardenerG(), plan.finishMm2(), plan.potLifeMin(), spec.resin().tackHours(),
                spec.resin().demoldHours(), spec.resin().fullCureHours(), spec.coatResin().fullCureHours(),
                spec.resin().shelfMonths(), plan.coats().stream().map(KitFiguresMapping::coat).toList());
    }

    private static CoatFigures coat(ResinPlan.Coat coat) {
        return new CoatFigures(CoatStage.valueOf(coat.stage().name()), coat.number(), coat.mixedG(), coat.cups(),
                coat.cupResinG(), coat.cupHardenerG(), coat.cupResinMl(), coat.cupHardenerMl());
    }
}
