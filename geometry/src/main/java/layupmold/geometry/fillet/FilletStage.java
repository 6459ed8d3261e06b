package layupmold.geometry.fillet;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.function.Supplier;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.flange.FlangedSurface;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.simplify.Target;

/**
 * Stage "fillet": fills corners that are too tight for the cloth, so that it lies down everywhere. What is behind the
 * sheet is closed by a ball that rolls over its front ({@link RollingBall}).
 *
 * <p>Every vertex that the ball cannot reach moves straight towards the nearest free ball until it lies on the filling;
 * triangles are split where filling begins and as finely as it bends, then simplified. Where neighbours belong to balls
 * far apart (deep pits) and where the filling crosses itself, it runs out around the place. All else keeps its bytes.
 * Close to linear in the number of triangles, plus some dozen nearest-point queries for each filled vertex.
 */
public final class FilletStage {

    private static final String STAGE = "fillet";
    /** Facets of a filling read a little tighter than it is. */
    private static final double MARGIN = 1.08;
    /** Smaller balls roll into the facets of curved surfaces. */
    private static final double LEAST_RADIUS_MM = 0.2;
    private static final int MOST_PLACES = 100;
    private static final int MOST_FINDINGS = 10;
    private static final int ATTEMPTS = 5;
    /** Before this attempt the sheet is cut anew, with the faults known: cuts alone may make what was folded cross. */
    private static final int AFRESH = 2;

    private FilletStage() {
    }

    /**
     * @param flanged capped face and flange, cloth on the front
     * @param face x, y, z of the face's vertices before openings' trim lines were marked: marks are not filled
     * @param askedMm least concave radius of the tool surface
     * @param ballMm radius of the ball that rolls over the sheet, see {@link #ballMm}
     * @param behindMm how far the tool surface will lie behind the sheet; negative for in front of it
     */
    public static FilletedSurface fill(
            FlangedSurface flanged, double[] face, double askedMm, double ballMm, double behindMm) {
        double[] ground = unmarked(flanged, face);
        RollingBall rolling = RollingBall.over(new TriangleMesh(ground, flanged.mesh().triangles()), ballMm,
                Math.min(1, ballMm / (ballMm + behindMm)));
        EdgeTopology topology = EdgeTopology.of(rolling.ground());
        TightPlaces tight = TightPlaces.find(rolling, topology);
        double[] marks = marks(flanged.mesh().xyz(), ground);
        Faults faults = new Faults();
        FilletSheet sheet = null;
        Refinement refinement = null;
        Supplier<Target> targets = () -> new FilledTarget(rolling, tight.centres(), faults);
        for (int attempt = 0; attempt < ATTEMPTS; attempt++) {
            if (attempt == 0 || attempt == AFRESH) {
                sheet = new FilletSheet(rolling, marks, faults);
                FilledPlaces.find(rolling, tight, tight.triangles(topology), sheet);
                if (!sheet.hasFilling()) {
                    break;
                }
                refinement = new Refinement(rolling, tight.centres(), sheet);
            }
            refinement.run();
            FilledPatch.Result patch =
                    FilledPatch.simplify(sheet, flanged, targets, rolling.chordMm(), 3 * rolling.chordMm());
            TriangleMesh mesh = marked(patch, sheet, flanged.mesh());
            FillingCheck.Wrong wrong = new FillingCheck(rolling, tight.centres(), patch, sheet).find(mesh);
            if (wrong.unsound().length == 0 && (wrong.off().length == 0 || attempt > 0)) {
                // Nothing runs out any more, but what is not as promised is said.
                leave(wrong.off(), patch, sheet, ballMm);
                sheet.leaveDeepest();
                FilletFigures figures = figures(askedMm, ballMm, behindMm,
                        FilledRegions.measure(rolling, sheet, behindMm), faults);
                return new FilletedSurface(new FlangedSurface(mesh, patch.regions(), new double[0],
                        outline(mesh), flanged.findings()), figures, findings(figures));
            }
            // Each attempt leaves twice as much around faults that are still there.
            double reach = rolling.reachMm() * (1 << attempt);
            leave(wrong.unsound(), patch, sheet, reach);
            leave(wrong.off(), patch, sheet, reach);
            sheet.runOut();
            refinement.reopen();
        }
        FilletFigures none = figures(askedMm, ballMm, behindMm, List.of(), faults);
        if (none.left().isEmpty()) {
            return new FilletedSurface(flanged, none, List.of());
        }
        List<Finding> findings = new ArrayList<>(findings(none));
        findings.add(0, Finding.warning(STAGE, "nothing-filled",
                "Corners tighter than the cloth follows are too entangled to be filled: all are left as they are.")
                .advising("See what the cloth bridges in the report's fabric.bridges."));
        return new FilletedSurface(flanged, none, findings);
    }

    /** Lets the filling run out around what is wrong. */
    private static void leave(int[] wrong, FilledPatch.Result patch, FilletSheet sheet, double reachMm) {
        for (int t : wrong) {
            for (int k = 0; k < 3; k++) {
                int v = patch.origin()[patch.mesh().triangles()[3 * t + k]];
                sheet.faults.add(sheet.ground(v, 0), sheet.ground(v, 1), sheet.ground(v, 2), reachMm);
            }
        }
    }

    private static double[] unmarked(FlangedSurface flanged, double[] face) {
        double[] ground = flanged.mesh().xyz().clone();
        System.arraycopy(face, 0, ground, 0, face.length);
        System.arraycopy(flanged.unmarkedSkirt(), 0, ground, face.length, flanged.unmarkedSkirt().length);
        return ground;
    }

    /** Given vertices that were not filled keep their bytes. */
    private static TriangleMesh marked(FilledPatch.Result patch, FilletSheet sheet, TriangleMesh given) {
        double[] xyz = new double[patch.mesh().xyz().length];
        for (int i = 0; i < xyz.length; i++) {
            int own = patch.origin()[i / 3];
            xyz[i] = own >= sheet.givenCount() || sheet.isFilled(own)
                    ? sheet.marked(own, i % 3) : given.xyz()[3 * own + i % 3];
        }
        return new TriangleMesh(xyz, patch.mesh().triangles());
    }

    private static int[] outline(TriangleMesh mesh) {
        EdgeTopology edges = EdgeTopology.of(mesh);
        return Arrays.stream(edges.boundaryLoops().get(0)).map(edges::from).toArray();
    }

    /** Radius of the ball that rolls over the sheet so that the tool surface behind it gets the radius asked, or more. */
    public static double ballMm(double askedMm, double behindMm) {
        return Math.max(LEAST_RADIUS_MM, MARGIN * askedMm - behindMm);
    }

    private static double[] marks(double[] marked, double[] ground) {
        double[] marks = new double[marked.length];
        for (int i = 0; i < marks.length; i++) {
            marks[i] = marked[i] - ground[i];
        }
        return marks;
    }

    private static FilletFigures figures(double asked, double radius, double behindMm, List<FilledPlace> places,
            Faults left) {
        double area = places.stream().mapToDouble(FilledPlace::areaMm2).sum();
        return new FilletFigures(asked, radius + behindMm, radius, area, places.isEmpty() ? 0 : places.get(0).depthMm(),
                places.isEmpty() ? null : places.get(0).at(), places.stream().limit(MOST_PLACES).toList(),
                left.places());
    }

    private static List<Finding> findings(FilletFigures figures) {
        List<Finding> findings = new ArrayList<>();
        if (!figures.places().isEmpty()) {
            findings.add(Finding.info(STAGE, "corners-filled", String.format(Locale.ROOT,
                    "Corners tighter than %.2f mm are filled to that radius: %.1f cm², up to %.2f mm deep.",
                    figures.radiusMm(), figures.filledMm2() / 100, figures.deepestMm()))
                    .at(figures.deepestAt()).measured(figures.deepestMm(), null, "mm")
                    .advising("That much detail is given up there. A lighter cloth follows tighter corners."));
        }
        figures.left().stream().limit(MOST_FINDINGS).forEach(left -> findings.add(Finding.warning(STAGE, "corners-left",
                String.format(Locale.ROOT, "Corners within %.1f mm of this place may be tighter than the cloth follows: filled,"
                        + " they would tear or cross themselves.", left.reachMm()))
                .at(left.at()).measured(left.reachMm(), null, "mm").advising("Round these corners in the model, or fill "
                        + "them by hand with thickened resin before the first ply.")));
        int more = figures.left().size() - MOST_FINDINGS;
        if (more > 0) {
            findings.add(Finding.warning(STAGE, "more-corners-left", String.format(Locale.ROOT,
                    "So it is at %d more places.", more)).at(figures.left().get(MOST_FINDINGS).at())
                    .advising("The report's fillet.left lists all of them."));
        }
        return findings;
    }
}
