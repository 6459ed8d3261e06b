package layupmold.service.batch;

import java.util.ArrayList;
import java.util.List;
import layupmold.api.recipe.PlyRecipe;
import layupmold.api.report.MoldReportDocument;
import layupmold.geometry.kit.KitSpec;
import layupmold.geometry.kit.ResinPlan;
import layupmold.geometry.recipe.Layup;

/**
 * What one mold and one piece from it take, reckoned from the mold's report.
 *
 * @param filamentG mass of the print
 * @param printHours time of the print
 * @param clothM2 each ply as cut, in the layup's order
 * @param resinG for one piece
 * @param hardenerG for one piece
 */
record PartNeeds(double filamentG, double printHours, List<Double> clothM2, double resinG, double hardenerG) {

    /** The formulas in words, for whoever reads the sums. */
    static final List<String> BASIS = List.of(
            "Filament and print hours: as each mold's report reckons them, with the formula in its words.",
            "Cloth: the face and a margin around its perimeter for every ply, before nesting on a roll.",
            "Resin: cloth × (1 − Wf) / Wf and the finish coat, losses included.",
            "Margin, losses and the like are common practice, no source; data sheets come first.");

    static PartNeeds of(MoldReportDocument report, Layup layup, KitSpec kit) {
        double face = report.face().areaMm2();
        double cloth = face + report.face().perimeterMm() * kit.marginMm();
        List<Double> plies = new ArrayList<>();
        for (PlyRecipe ply : report.recipe().layup().plies()) {
            plies.add(cloth);
        }
        ResinPlan resin = ResinPlan.of(layup, plies, face, kit);
        return new PartNeeds(report.print().filament().massG(), report.print().filament().hours(), plies.stream().map(mm2 -> mm2 * 1e-6).toList(),
                resin.resinG() + resin.finishResinG(), resin.hardenerG() + resin.finishHardenerG());
    }
}
