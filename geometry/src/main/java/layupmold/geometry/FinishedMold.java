package layupmold.geometry;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.UnaryOperator;
import layupmold.geometry.body.BodyParts;
import layupmold.geometry.body.MoldSolid;
import layupmold.geometry.check.FlangeMeasurement;
import layupmold.geometry.check.MoldCheck;
import layupmold.geometry.check.WallCheck;
import layupmold.geometry.face.FaceResult;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.finding.Severity;
import layupmold.geometry.inspect.CopiedSurface;
import layupmold.geometry.inspect.DeviationFigures;
import layupmold.geometry.inspect.Inspection;
import layupmold.geometry.inspect.MeasuredSolid;
import layupmold.geometry.inspect.ToolDeviation;
import layupmold.geometry.laminate.LaminateFigures;
import layupmold.geometry.laminate.OffsetRule;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.offset.KnownMiss;
import layupmold.geometry.offset.OffsetSurface;
import layupmold.geometry.plug.PlugMeasurement;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.report.BodyFigures;
import layupmold.geometry.report.CheckFigures;
import layupmold.geometry.report.FlangeFigures;
import layupmold.geometry.report.OffsetFigures;
import layupmold.geometry.report.OpeningFigures;
import org.joml.Vector3d;

/**
 * The checks and measurements of a finished solid.
 *
 * @param solid what was measured
 * @param checks topology and self-intersection
 * @param wall wall between tool side and outside
 * @param border the flange's level border
 * @param inspection everything else, in the solid's frame; null if a check failed
 * @param failures checks that failed; a mold with any must not be handed out
 * @param findings the rest
 */
record FinishedMold(
        MeasuredSolid solid,
        CheckFigures checks,
        WallCheck.Result wall,
        FlangeMeasurement.Border border,
        Inspection inspection,
        List<Finding> failures,
        List<Finding> findings) {

    /**
     * @param face capped face and flange before the offset, in the solid's frame
     * @param known where the tool surface is known to be off by most, in the solid's frame
     */
    static FinishedMold measure(MoldSolid mold, CopiedSurface face, double offsetMm, KnownMiss known, Recipe recipe) {
        MeasuredSolid solid = MeasuredSolid.of(mold.mesh(), mold.regions());
        List<Finding> failures = new ArrayList<>();
        List<Finding> findings = new ArrayList<>();
        MoldCheck.Result checks = MoldCheck.check(solid.mesh(), solid.regions(), solid.topology(), solid.bvh());
        failures.addAll(checks.findings());
        WallCheck.Result wall = WallCheck.check(
                solid.mesh(), solid.regions(), solid.bvh(), recipe.body().wallMm());
        failures.addAll(wall.findings());
        FlangeMeasurement.Border border =
                FlangeMeasurement.narrowestBorder(solid.mesh(), solid.regions(), solid.topology());
        failures.addAll(FlangeMeasurement.check(border, recipe.flange().widthMm()));
        Inspection inspection = null;
        if (failures.isEmpty()) {
            inspection = Inspection.inspect(solid, face, offsetMm, recipe)
                    .knowing(known.mm(), known.at());
            DeviationFigures deviation = inspection.deviation();
            if (deviation.p95Mm() > ToolDeviation.TOLERANCE_MM
                    || deviation.maxMm() > recipe.inspect().toolToleranceMm()) {
                failures.add(offTarget(Severity.ERROR, deviation));
            } else if (deviation.maxMm() > ToolDeviation.TOLERANCE_MM) {
                findings.add(offTarget(Severity.WARNING, deviation));
            }
            findings.addAll(inspection.findings());
        }
        return new FinishedMold(solid, checks.figures(), wall, border, inspection, failures, findings);
    }

    private static Finding offTarget(Severity severity, DeviationFigures deviation) {
        return new Finding(severity, "check", "tool-off-target",
                "The tool surface does not lie at its offset from the face everywhere.", deviation.maxAt(),
                deviation.maxMm(), ToolDeviation.TOLERANCE_MM, "mm",
                severity == Severity.ERROR
                        ? "Smooth the part at this place, or let inspect.toolToleranceMm allow more if it does not "
                                + "matter there."
                        : "Look at this place in the deviation map; smoothing the part there brings the tool closer.");
    }

    OffsetFigures offsetFigures(
            OffsetSurface tool, Recipe recipe, LaminateFigures laminate, UnaryOperator<Place> toPart) {
        DeviationFigures deviation = inspection.deviation();
        return new OffsetFigures(deviation.offsetMm(),
                OffsetRule.words(recipe.tool(), recipe.hold(), laminate.laminateMm(), recipe.releaseMm(),
                        recipe.layup().finishCoatMm()),
                tool.method(), deviation.meanMm(), deviation.p95Mm(), deviation.maxMm(),
                toPart.apply(deviation.maxAt()), deviation.reachLimitedMm2(),
                deviation.uncoveredMm2(), deviation.histogram());
    }

    OpeningFigures openingFigures(FaceResult face) {
        return PlugMeasurement.measure(solid.mesh(), solid.regions(), solid.topology(), face.openings().size());
    }

    FlangeFigures flangeFigures(OffsetSurface tool, MoldSolid placed) {
        double plane = placed.placement().apply(tool.mesh().vertex(tool.outline()[0])).z;
        return new FlangeFigures(plane, border.widthMm(),
                FlangeMeasurement.leastWallDraftDeg(solid.mesh(), solid.regions()));
    }

    BodyFigures bodyFigures(Recipe recipe, BodyParts parts, UnaryOperator<Place> toPart) {
        double[] box = solid.mesh().bounds();
        return new BodyFigures(recipe.body().kind().name().toLowerCase(Locale.ROOT),
                solid.mesh().triangleCount(),
                new Vector3d(box[3] - box[0], box[4] - box[1], box[5] - box[2]), solid.mesh().volume(),
                parts.blockMm3(), parts.feet(), parts.notches(), parts.screwHoles(), parts.tipDeg(),
                wall.leastMm(), toPart.apply(wall.place()));
    }
}
