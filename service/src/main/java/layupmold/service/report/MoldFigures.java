package layupmold.service.report;

import static layupmold.service.report.Wording.cm2;
import static layupmold.service.report.Wording.cm3;
import static layupmold.service.report.Wording.degrees;
import static layupmold.service.report.Wording.mm;
import static layupmold.service.report.Wording.percent;

import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.fillet.FilletFigures;
import layupmold.geometry.report.MoldReport;
import layupmold.geometry.report.OpeningFigures;
import layupmold.service.report.ReportPage.Figure;
import layupmold.service.report.ReportPage.FigureGroup;

/** The figures of the stages that make the mold, in the order of the pipeline. */
final class MoldFigures {

    private MoldFigures() {
    }

    static List<FigureGroup> groups(MoldReport report) {
        return List.of(part(report), pull(report), face(report), offset(report), body(report), checks(report));
    }

    private static FigureGroup part(MoldReport report) {
        var part = report.part();
        return new FigureGroup("Part", List.of(
                new Figure("Size", Wording.size(part.sizeMm()), "along the posted axes"),
                new Figure("Kind", part.kind().replace('-', ' '), "read as " + part.format()),
                new Figure("Surface", cm2(part.areaMm2()), part.triangles() + " triangles, " + part.vertices() + " vertices"),
                new Figure("Cleaning", part.weldedVertices() + " vertices welded",
                        part.droppedTriangles() + " triangles dropped, " + part.flippedTriangles() + " turned, "
                                + part.components() + (part.components() == 1 ? " piece" : " pieces"))));
    }

    private static FigureGroup pull(MoldReport report) {
        var pull = report.pull();
        List<Figure> figures = new ArrayList<>();
        figures.add(new Figure("Pull direction", Wording.direction(pull.direction()),
                pull.searched() ? "found by search" : "as the recipe says"));
        figures.add(new Figure("Undercut along it", cm2(pull.undercutMm2()), percent(pull.undercutShare()) + " of the face"));
        if (pull.runnerUp() != null) {
            figures.add(new Figure("Next best direction", Wording.direction(pull.runnerUp()),
                    "undercut " + cm2(pull.runnerUpUndercutMm2())));
        }
        return new FigureGroup("Pull", figures);
    }

    private static FigureGroup face(MoldReport report) {
        var face = report.face();
        var flange = report.flange();
        List<Figure> figures = new ArrayList<>(List.of(
                new Figure("Kept face", cm2(face.areaMm2()), cm2(face.removedAreaMm2()) + " of back wall and rim removed"),
                openings(report.openings()),
                new Figure("Perimeter", mm(face.perimeterMm()), "the trim line"),
                new Figure("Flange width", mm(flange.leastWidthMm()), "least, measured"),
                new Figure("Wall draft", degrees(flange.leastDraftDeg()), "least, measured, but for a thousandth of it")));
        if (report.fillet() != null) {
            figures.add(filled(report.fillet()));
        }
        return new FigureGroup("Face and flange", figures);
    }

    private static Figure filled(FilletFigures fillet) {
        return new Figure("Corners filled", cm2(fillet.filledMm2()), fillet.places().size()
                + (fillet.places().size() == 1 ? " place" : " places") + " to a radius of " + mm(fillet.toolRadiusMm())
                + ", up to " + mm(fillet.deepestMm()) + " deep; " + fillet.left().size() + " left as they were");
    }

    private static Figure openings(OpeningFigures openings) {
        String note = openings.plugged() == 0 ? "capped, trimmed after demolding"
                : openings.plugged() + " moulded net around core plugs of " + degrees(openings.leastPlugDraftDeg())
                        + " draft or more, " + openings.capped() + " capped";
        return new Figure("Openings", Integer.toString(openings.capped() + openings.plugged()), note);
    }

    private static FigureGroup offset(MoldReport report) {
        var offset = report.offset();
        var laminate = report.laminate();
        return new FigureGroup("Laminate and offset", List.of(
                new Figure("Laminate", mm(laminate.laminateMm()), laminate.plyMm().size() + " plies, fibre volume "
                        + percent(laminate.fibreVolumeFraction())),
                new Figure("Offset", mm(offset.signedMm()), offset.words()),
                new Figure("Mean deviation", mm(offset.meanDeviationMm()), "of the tool surface, measured"),
                new Figure("95 % within", mm(offset.p95DeviationMm()), offset.method()),
                new Figure("Greatest deviation", mm(offset.maxDeviationMm()), Wording.place(offset.maxPlace())),
                new Figure("Corners tighter than the offset", cm2(offset.reachLimitedMm2()), "rounded, mitred or filled")));
    }

    private static FigureGroup body(MoldReport report) {
        var body = report.body();
        return new FigureGroup("Mold", List.of(
                new Figure("Size", Wording.size(body.sizeMm()), body.kind()),
                new Figure("Solid volume", cm3(body.volumeMm3()), body.triangles() + " triangles"),
                new Figure("Against a block", percent(body.volumeMm3() / body.blockVolumeMm3()),
                        "of " + cm3(body.blockVolumeMm3())),
                new Figure("Stands", body.feet() == 0 ? "on its base" : "on " + body.feet() + " feet",
                        "tips over beyond " + degrees(body.tipDeg())),
                new Figure("For demolding", body.notches() + (body.notches() == 1 ? " pry notch" : " pry notches"),
                        body.screwHoles() + (body.screwHoles() == 1 ? " screw hole" : " screw holes")),
                new Figure("Least wall", mm(body.leastWallMm()), Wording.place(body.leastWallPlace()))));
    }

    private static FigureGroup checks(MoldReport report) {
        var checks = report.checks();
        return new FigureGroup("Checks passed before it left", List.of(
                new Figure("Open edges", count(checks.boundaryEdges()), "0 needed"),
                new Figure("Edges or corners that do not join", count(checks.nonManifoldEdges() + checks.nonManifoldVertices()),
                        "0 needed"),
                new Figure("Pieces", count(checks.components()), "1 needed"),
                new Figure("Triangles that cross", count(checks.intersectingPairs()), "0 needed")));
    }

    private static String count(int n) {
        return Integer.toString(n);
    }
}
