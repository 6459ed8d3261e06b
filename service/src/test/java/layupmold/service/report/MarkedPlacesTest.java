package layupmold.service.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Collections;
import java.util.List;
import layupmold.geometry.inspect.CopiedSurface;
import layupmold.geometry.inspect.Inspection;
import layupmold.geometry.inspect.MeasuredSolid;
import layupmold.geometry.inspect.ThicknessFigures;
import layupmold.geometry.recipe.InspectSpec;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.render.InspectionMaps;
import layupmold.geometry.render.MoldPictures;
import layupmold.geometry.report.MoldReport;
import layupmold.service.SampleReport;
import layupmold.service.report.ReportPage.Figure;
import layupmold.service.report.ReportPage.FigureGroup;
import org.junit.jupiter.api.Test;

class MarkedPlacesTest {

    private static List<Figure> lines(List<FigureGroup> groups, String name) {
        return groups.stream().filter(group -> group.name().startsWith(name)).findFirst().orElseThrow().figures();
    }

    @Test
    void everyKindOfPlaceIsListedWithItsSizeAndWhereItIs() {
        MoldReport report = SampleReport.filled();
        List<FigureGroup> groups = MarkedPlaces.of(report);
        assertEquals(List.of("Where", "Locked", "Thin", "Places", "Overhangs"),
                groups.stream().map(group -> group.name().split(" ")[0]).map(word -> word.replace(",", "")).toList());
        Figure thin = lines(groups, "Thin").get(0);
        assertEquals("1", thin.name());
        assertEquals(Wording.mm(report.wall().thinRegions().get(0).leastMm()), thin.value());
        assertTrue(thin.note().endsWith(Wording.place(report.wall().thinRegions().get(0).at())), thin.note());
        Figure locked = lines(groups, "Locked").get(0);
        assertEquals(Wording.mm(report.demold().lockedRegions().get(0).depthMm()) + " deep", locked.value());
        assertEquals(Wording.place(report.demold().drafts().get(0).leastAt()), lines(groups, "Where").get(0).note());
    }

    /** A dish 6 mm over the base is thin against 8 mm, and no cloth follows it that needs 100 mm. */
    @Test
    void everyNumberOnAMapHasItsLine() {
        InspectSpec d = InspectSpec.defaults();
        Recipe strict = Recipe.defaults().withInspect(new InspectSpec(d.toolToleranceMm(), d.leastDraftDeg(), 8.0, d.flexDepthMm(), 100.0,
                d.overhangDeg(), d.layerMm(), d.wallLines(), d.infillShare(), d.speedMmPerS(), d.cureTemperatureC()));
        MoldPictures.Subject parts = ReportFixture.subject(24);
        Inspection inspection = Inspection.inspect(
                MeasuredSolid.of(parts.solid(), parts.regions()), CopiedSurface.of(parts.face()), 1.1, strict);
        List<FigureGroup> groups = MarkedPlaces.of(ReportFixture.report(inspection));
        InspectionMaps.of(inspection, 1).forEach(map -> {
            String table = map.name().equals("wall-thickness") ? "Thin" : map.name().equals("radius") ? "Places" : null;
            if (table != null) {
                assertTrue(!map.markers().isEmpty(), map.name());
                assertEquals(map.markers().stream().map(marker -> marker.label()).toList(),
                        lines(groups, table).stream().map(Figure::name).limit(map.markers().size()).toList());
            }
        });
    }

    @Test
    void aLongListIsCutWhereTheMapsEndAndSaysSo() {
        MoldReport r = SampleReport.filled();
        ThicknessFigures w = r.wall();
        ThicknessFigures many = new ThicknessFigures(w.limitMm(), w.leastMm(), w.leastAt(), w.leastRayMm(), w.leastRayAt(),
                w.p1Mm(), w.p5Mm(), w.thinShare(), w.histogram(), Collections.nCopies(12, w.thinRegions().get(0)), w.capMm());
        List<Figure> lines = lines(MarkedPlaces.of(new MoldReport(r.part(), r.pull(), r.face(), r.openings(), r.laminate(),
                r.offset(), r.flange(), r.body(), r.checks(), many, r.demold(), r.fabric(), null, r.print(),
                r.findings())), "Thin");
        assertEquals(10, lines.size());
        assertEquals("3 more", lines.get(9).value());
    }
}
