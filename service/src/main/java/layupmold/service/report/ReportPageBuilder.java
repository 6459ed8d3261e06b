package layupmold.service.report;

import java.util.ArrayList;
import java.util.Base64;
import java.util.Comparator;
import java.util.List;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Severity;
import layupmold.geometry.render.Picture;
import layupmold.geometry.report.MoldReport;
import layupmold.service.report.ReportPage.EmbeddedPicture;
import layupmold.service.report.ReportPage.Figure;
import layupmold.service.report.ReportPage.FigureGroup;
import layupmold.service.report.ReportPage.FindingLine;

/** Puts what the pipeline measured and found into the words and pictures of the report page. */
final class ReportPageBuilder {

    private ReportPageBuilder() {
    }

    /**
     * @param title name of the part or of the recipe
     * @param report figures and findings
     * @param inspected what was measured on the solid
     * @param pictures what was drawn
     * @param files the pictures' files, in the same order
     * @param view the model
     */
    static ReportPage build(
            String title, MoldReport report, Inspected inspected, List<Picture> pictures, List<LookFile> files,
            InteractiveView view) {
        List<FindingLine> problems = new ArrayList<>();
        List<FindingLine> notes = new ArrayList<>();
        report.findings().stream()
                .sorted(Comparator.comparing(Finding::severity).reversed())
                .forEach(f -> (f.severity() == Severity.INFO ? notes : problems).add(Wording.finding(f)));
        List<FigureGroup> groups = new ArrayList<>(inspected.groups());
        groups.addAll(MarkedPlaces.of(report));
        groups.addAll(MoldFigures.groups(report));
        return new ReportPage(title, Headline.of(problems, inspected.demold()), keyFigures(report), problems, notes, groups,
                embedded(pictures, files), inspected.charts(), view.toPage(), Cautions.ALL);
    }

    private static List<Figure> keyFigures(MoldReport report) {
        return List.of(
                new Figure("Mold", Wording.size(report.body().sizeMm()), Wording.cm3(report.body().volumeMm3()) + " solid"),
                new Figure("Offset", Wording.mm(report.offset().signedMm()), report.offset().words()),
                new Figure("Laminate", Wording.mm(report.laminate().laminateMm()),
                        report.laminate().plyMm().size() + " plies"),
                new Figure("Least wall", Wording.mm(report.body().leastWallMm()), ""),
                new Figure("Undercut", Wording.cm2(report.demold().undercutMm2()), "of the finished mold"),
                new Figure("Print", PrintingFigures.time(report.print().filament().hours()),
                        Wording.number(report.print().filament().massG()) + " g of filament"));
    }

    private static List<EmbeddedPicture> embedded(List<Picture> pictures, List<LookFile> files) {
        List<EmbeddedPicture> embedded = new ArrayList<>();
        for (int i = 0; i < pictures.size(); i++) {
            Picture picture = pictures.get(i);
            String uri = "data:image/png;base64," + Base64.getEncoder().encodeToString(files.get(i).bytes());
            embedded.add(new EmbeddedPicture(picture.name(), picture.caption(), uri,
                    picture.scene().size().widthPx(), picture.scene().size().heightPx()));
        }
        return embedded;
    }
}
