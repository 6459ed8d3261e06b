package layupmold.service.report;

import static layupmold.service.report.Wording.mm;
import static layupmold.service.report.Wording.number;
import static layupmold.service.report.Wording.percent;

import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import layupmold.geometry.inspect.Histogram;
import layupmold.geometry.inspect.ThicknessFigures;
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

    static HistogramChart chart(String title, String unit, Histogram histogram, String limit, String summary) {
        String areas = histogram.areaMm2().stream()
                .map(area -> String.format(Locale.ROOT, "%.1f", area)).collect(Collectors.joining(","));
        return new HistogramChart(title, unit, histogram.from(), histogram.to(), areas, limit, summary);
    }

    private static String atLeast(double value, double cap) {
        return value >= cap ? "over " + mm(cap) : mm(value);
    }
}
