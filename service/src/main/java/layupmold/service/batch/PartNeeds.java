package layupmold.service.batch;

import java.util.ArrayList;
import java.util.List;
import layupmold.api.recipe.InspectRecipe;
import layupmold.api.recipe.PlyRecipe;
import layupmold.api.recipe.PrinterRecipe;
import layupmold.api.report.MoldReportDocument;
import layupmold.geometry.kit.KitSpec;
import layupmold.geometry.kit.ResinPlan;
import layupmold.geometry.laminate.MaterialTables;
import layupmold.geometry.recipe.Layup;
import layupmold.geometry.recipe.Printer;

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
            "Filament: wall lines (lines × nozzle width) over the mold's surface, taken as its box and its face, and the "
                    + "infill share of the rest; no more than the solid.",
            "Print hours: that volume over layer height × nozzle width × mean speed; moves without printing are not counted.",
            "Cloth: the face and a margin around its perimeter for every ply, before nesting on a roll.",
            "Resin: cloth × (1 − Wf) / Wf and the finish coat, losses included.",
            "Margin, losses and the like are common practice, no source; data sheets come first.");

    static PartNeeds of(MoldReportDocument report, Layup layup, KitSpec kit) {
        PrinterRecipe printer = report.recipe().printer();
        InspectRecipe print = report.recipe().inspect();
        double printedMm3 = printedMm3(report, printer.nozzleMm(), print);
        double density = MaterialTables.printMaterial(Printer.Material.valueOf(printer.material().name())).density();
        double hours = printedMm3 / (print.layerMm() * printer.nozzleMm() * print.speedMmPerS()) / 3600;
        double face = report.face().areaMm2();
        double cloth = face + report.face().perimeterMm() * kit.marginMm();
        List<Double> plies = new ArrayList<>();
        for (PlyRecipe ply : report.recipe().layup().plies()) {
            plies.add(cloth);
        }
        ResinPlan resin = ResinPlan.of(layup, plies, face, kit);
        return new PartNeeds(printedMm3 * density / 1000, hours, plies.stream().map(mm2 -> mm2 * 1e-6).toList(),
                resin.resinG() + resin.finishResinG(), resin.hardenerG() + resin.finishHardenerG());
    }

    private static double printedMm3(MoldReportDocument report, double nozzleMm, InspectRecipe print) {
        List<Double> size = report.body().sizeMm();
        double box = 2 * (size.get(0) * size.get(1) + size.get(1) * size.get(2) + size.get(2) * size.get(0));
        double walls = (box + report.face().areaMm2()) * print.wallLines() * nozzleMm;
        double solid = report.body().volumeMm3();
        return walls >= solid ? solid : walls + print.infillShare() * (solid - walls);
    }
}
