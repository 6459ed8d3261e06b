package layupmold.service.report;

import static layupmold.service.report.Wording.cm2;
import static layupmold.service.report.Wording.degrees;
import static layupmold.service.report.Wording.mm;
import static layupmold.service.report.Wording.number;
import static layupmold.service.report.Wording.percent;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import layupmold.geometry.inspect.DemoldFigures;
import layupmold.geometry.inspect.DeviationFigures;
import layupmold.geometry.inspect.DraftFigures;
import layupmold.geometry.inspect.FabricFigures;
import layupmold.geometry.inspect.Histogram;
import layupmold.geometry.inspect.ThicknessFigures;
import layupmold.geometry.inspect.Verdict;
import layupmold.service.report.ReportPage.Figure;
import layupmold.service.report.ReportPage.FigureGroup;
import layupmold.service.report.ReportPage.HistogramChart;

/** The figures of the inspection and their histograms. */
final class InspectionFigures {

    private InspectionFigures() {
    }

    static FigureGroup thickness(ThicknessFigures figures) {
        return new FigureGroup("Wall thickness", List.of(
                new Figure("Least wall, inscribed ball", atLeast(figures.leastMm(), figures.capMm()),
                        "limit " + mm(figures.limitMm())),
                new Figure("Least wall, along rays", atLeast(figures.leastRayMm(), figures.capMm()), ""),
                new Figure("1 % of the surface is under", mm(figures.p1Mm()), "5 % under " + mm(figures.p5Mm())),
                new Figure("Under the limit", percent(figures.thinShare()), "of the surface, in "
                        + figures.thinRegions().size() + " regions")));
    }

    static HistogramChart thicknessChart(ThicknessFigures figures) {
        return chart("Wall thickness", "mm", figures.histogram(), number(figures.limitMm()),
                "Least " + mm(figures.leastMm()) + "; 1 % of the surface is under " + mm(figures.p1Mm())
                        + ". Thicker walls than " + mm(figures.capMm()) + " are in the last bar.");
    }

    static FigureGroup demold(DemoldFigures figures) {
        List<Figure> lines = new ArrayList<>();
        lines.add(new Figure("Along the pull the part", verdict(figures.verdict()), "spring allowed " + mm(figures.flexLimitMm())));
        lines.add(new Figure("Undercut", cm2(figures.undercutMm2()), cm2(figures.facingAwayMm2()) + " faces away, "
                + cm2(figures.shadowedMm2()) + " lies in the shadow of other parts"));
        if (!figures.lockedRegions().isEmpty()) {
            double depth = figures.lockedRegions().get(0).depthMm();
            lines.add(new Figure("Deepest region", Double.isInfinite(depth) ? "no way out" : mm(depth),
                    figures.lockedRegions().size() + " regions, marked on the picture"));
        }
        for (DraftFigures draft : figures.drafts()) {
            if (draft.areaMm2() > 0) {
                lines.add(new Figure("Least draft, " + draft.region().name().toLowerCase(Locale.ROOT),
                        degrees(draft.leastDeg()), cm2(draft.tightMm2()) + " under the limit"));
            }
        }
        if (figures.otherPull() != null) {
            lines.add(new Figure("Best other pull", Wording.direction(figures.otherPull().direction()),
                    "in the mold's frame; spares " + cm2(figures.otherPull().gainMm2()) + " of undercut"));
        }
        if (figures.split() != null) {
            lines.add(new Figure("A split", percent(figures.split().freedShare()) + " freed", figures.split().words() + " "
                    + Wording.uprightPlane(figures.split().normal(), figures.split().through())));
        }
        return new FigureGroup("Demolding", lines);
    }

    static HistogramChart draftChart(DemoldFigures figures, double limitDeg) {
        DraftFigures tool = figures.drafts().get(0);
        return chart("Draft of the tool surface", "degrees", tool.histogram(), number(limitDeg),
                "Least " + degrees(tool.leastDeg()) + "; " + cm2(tool.tightMm2()) + " is under the limit.");
    }

    static FigureGroup fabric(FabricFigures figures) {
        List<Figure> lines = new ArrayList<>();
        lines.add(new Figure("Cloth on the tool", cm2(figures.clothMm2()), cm2(figures.toolMm2()) + " without the flange"));
        lines.add(new Figure("Tightest inward curve", atLeast(figures.leastRadiusMm(), figures.capMm()),
                "the cloth follows " + mm(figures.clothRadiusMm())));
        if (!figures.bridges().isEmpty()) {
            lines.add(new Figure("Deepest gap under the cloth", mm(figures.bridges().get(0).gapMm()), "it spans "
                    + figures.bridges().size() + (figures.bridges().size() == 1 ? " place" : " places") + ", "
                    + cm2(figures.tightMm2()) + " in all"));
        }
        lines.add(new Figure("Detail lost", "under " + mm(figures.lostDetailMm()),
                "lines that release layer and finish coat close; " + cm2(figures.lostDetailMm2()) + " is that fine"));
        return new FigureGroup("Fabric", lines);
    }

    static HistogramChart radiusChart(FabricFigures figures) {
        return chart("Concave radius", "mm", figures.histogram(), number(figures.clothRadiusMm()),
                cm2(figures.tightMm2()) + " is tighter than the cloth follows. Flat and outward curves are in the last bar.");
    }

    static HistogramChart deviationChart(DeviationFigures figures) {
        return chart("Deviation of the tool surface", "mm", figures.histogram(), "",
                "95 % of it within " + mm(figures.p95Mm()) + "; positive is farther from the face than planned.");
    }

    private static String verdict(Verdict verdict) {
        return switch (verdict) {
            case RELEASES -> "releases";
            case RELEASES_WITH_FLEX -> "releases with flex";
            case LOCKED -> "is locked";
        };
    }

    static HistogramChart chart(String title, String unit, Histogram histogram, String limit, String summary) {
        String areas = histogram.areaMm2().stream()
                .map(area -> String.format(Locale.ROOT, "%.1f", area)).collect(Collectors.joining(","));
        return new HistogramChart(title, unit, histogram.from(), histogram.to(), areas, limit, summary);
    }

    private static String atLeast(double value, double cap) {
        return value >= cap ? "over " + mm(cap) : mm(value);
    }
}
