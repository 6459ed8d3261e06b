package layupmold.service.report;

import java.util.List;
import layupmold.geometry.MoldOutcome.Mold;
import layupmold.geometry.inspect.Demold;
import layupmold.geometry.inspect.DemoldFigures;
import layupmold.geometry.inspect.MeasuredSolid;
import layupmold.geometry.inspect.WallThickness;
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
        MeasuredSolid solid = MeasuredSolid.of(mold.solid(), mold.regions());
        WallThickness thickness = WallThickness.measure(solid, recipe.body().wallMm());
        Demold demold = Demold.measure(solid, recipe.inspect(), recipe.tool());
        double leastDraft = recipe.inspect().leastDraftDeg();
        return new Inspected(demold.figures(),
                List.of(
                        InspectionMaps.thickness(thickness.figures(), thickness.map()),
                        InspectionMaps.draft(demold.figures(), demold.draftMap(), leastDraft)),
                List.of(InspectionFigures.demold(demold.figures()), InspectionFigures.thickness(thickness.figures())),
                List.of(
                        InspectionFigures.thicknessChart(thickness.figures()),
                        InspectionFigures.draftChart(demold.figures(), leastDraft)));
    }
}
