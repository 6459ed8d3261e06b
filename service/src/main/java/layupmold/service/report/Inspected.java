package layupmold.service.report;

import java.util.List;
import layupmold.geometry.MoldOutcome.Mold;
import layupmold.geometry.inspect.DemoldFigures;
import layupmold.geometry.inspect.Inspection;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.render.InspectionMaps;
import layupmold.geometry.render.SurfaceMap;
import layupmold.service.report.ReportPage.FigureGroup;
import layupmold.service.report.ReportPage.HistogramChart;

/**
 * What the inspection of a finished mold has to show.
 *
 * @param demold how the part comes out
 * @param maps for pictures and model
 * @param groups figures
 * @param charts histograms
 */
record Inspected(
        DemoldFigures demold, List<SurfaceMap> maps, List<FigureGroup> groups, List<HistogramChart> charts) {

    static Inspected of(Mold mold, Recipe recipe) {
        Inspection found = mold.inspection();
        double leastDraft = recipe.inspect().leastDraftDeg();
        return new Inspected(found.demold(), InspectionMaps.of(found, leastDraft),
                List.of(
                        InspectionFigures.demold(found.demold()),
                        InspectionFigures.thickness(found.wall()),
                        InspectionFigures.fabric(found.fabric()),
                        PrintingFigures.print(found.print())),
                List.of(
                        InspectionFigures.thicknessChart(found.wall()),
                        InspectionFigures.draftChart(found.demold(), leastDraft),
                        InspectionFigures.radiusChart(found.fabric()),
                        InspectionFigures.deviationChart(found.deviation())));
    }
}
