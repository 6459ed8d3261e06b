package layupmold.service.report;

import static layupmold.service.report.Wording.cm2;
import static layupmold.service.report.Wording.degrees;
import static layupmold.service.report.Wording.mm;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import layupmold.geometry.finding.Place;
import layupmold.geometry.inspect.Bridge;
import layupmold.geometry.inspect.DraftFigures;
import layupmold.geometry.inspect.LockedRegion;
import layupmold.geometry.inspect.Overhang;
import layupmold.geometry.inspect.ThinRegion;
import layupmold.geometry.report.MoldReport;
import layupmold.service.report.ReportPage.Figure;
import layupmold.service.report.ReportPage.FigureGroup;

/** The worst places of each kind, numbered as the maps mark them, with where they are on the part as posted. */
final class MarkedPlaces {

    /** As many as the maps mark. */
    private static final int MOST = 9;

    private MarkedPlaces() {
    }

    /** The places of the least figures, then a table for each kind of place there is. */
    static List<FigureGroup> of(MoldReport report) {
        List<FigureGroup> groups = new ArrayList<>();
        groups.add(least(report));
        number(groups, "Locked regions, as the draft map numbers them", report.demold().lockedRegions(), LockedRegion::at,
                LockedRegion::areaMm2, region -> Double.isInfinite(region.depthMm()) ? "no way out" : mm(region.depthMm()) + " deep");
        number(groups, "Thin places, as the thickness map numbers them", report.wall().thinRegions(), ThinRegion::at,
                ThinRegion::areaMm2, region -> mm(region.leastMm()));
        number(groups, "Places the cloth spans, as the radius map numbers them", report.fabric().bridges(), Bridge::at,
                Bridge::areaMm2, bridge -> "gap " + mm(bridge.gapMm()));
        number(groups, "Overhangs, largest first", report.print().overhangs(), Overhang::at, Overhang::areaMm2,
                overhang -> "over air");
        return groups.stream().filter(group -> !group.figures().isEmpty()).toList();
    }

    private static FigureGroup least(MoldReport report) {
        List<Figure> lines = new ArrayList<>();
        for (DraftFigures draft : report.demold().drafts()) {
            add(lines, "Least draft, " + draft.region().name().toLowerCase(Locale.ROOT), degrees(draft.leastDeg()), draft.leastAt());
        }
        add(lines, "Least wall", mm(report.wall().leastMm()), report.wall().leastAt());
        add(lines, "Tightest inward curve", mm(report.fabric().leastRadiusMm()), report.fabric().leastRadiusAt());
        return new FigureGroup("Where the least is", lines);
    }

    private static void add(List<Figure> lines, String name, String value, Place at) {
        if (at != null) {
            lines.add(new Figure(name, value, Wording.place(at)));
        }
    }

    private static <T> void number(List<FigureGroup> groups, String name, List<T> places, Function<T, Place> at,
            Function<T, Double> areaMm2, Function<T, String> value) {
        List<Figure> lines = new ArrayList<>();
        for (int i = 0; i < Math.min(MOST, places.size()); i++) {
            T place = places.get(i);
            lines.add(new Figure(Integer.toString(i + 1), value.apply(place),
                    cm2(areaMm2.apply(place)) + " " + Wording.place(at.apply(place))));
        }
        if (places.size() > MOST) {
            lines.add(new Figure("And", places.size() - MOST + " more", "see report.json"));
        }
        groups.add(new FigureGroup(name, lines));
    }
}
