package layupmold.geometry.drape;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import layupmold.geometry.RigidTransform;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.Weave;
import org.joml.Vector3d;

/**
 * Lays one ply of dry cloth on the tool as a pin-jointed net (fishnet draping): yarns do not stretch, crossings do not
 * slip, and cloth turns its yarns to follow double curvature until they jam.
 *
 * <p>Each node is the surface cut with two spheres around two neighbours (van West, Pipes and Keefe, "A simulation of
 * the draping of bidirectional fabrics over arbitrary surfaces", 1990), from two geodesic threads through the start
 * point. A link is measured over the surface, not through it, so that cloth has enough length for ridges and grooves
 * lower than a link. The figures are kinematic: friction, drawing and tailoring by hand are not modelled. A chopped mat
 * has no threads; its net is only a guide to where it must be torn.
 */
public final class Drape {

    private static final int MOST_NODES = 60_000;
    private static final double SPLIT_SHARE = 0.15;
    /** Width of a 3K tow as it lies in light cloth (common practice, no source). */
    private static final double TOW_MM = 2;
    /** About nine degrees of shear in the mean. */
    private static final double WORTH_TURNING = 0.1;

    private final ToolSheet sheet;
    private final DrapeSpec spec;
    private final RigidTransform moldToPart;
    private final List<Finding> findings = new ArrayList<>();

    private Drape(ToolSheet sheet, DrapeSpec spec, RigidTransform moldToPart) {
        this.sheet = sheet;
        this.spec = spec;
        this.moldToPart = moldToPart;
    }

    /**
     * @param sheet capped tool surface in the mold's frame
     * @param moldToPart from there to the posted mesh's frame, for places in findings
     * @throws Rejection if the sheet has no area or the start point no surface to lie on
     */
    public static DrapedPly ply(ToolSheet sheet, DrapeSpec spec, RigidTransform moldToPart) {
        return new Drape(sheet, spec, moldToPart).run();
    }

    private DrapedPly run() {
        if (!(sheet.areaMm2() > 1e-6)) {
            throw new Rejection(Finding.error("drape", "no-tool-surface", "There is no tool surface to lay cloth on."));
        }
        double step = spec.stepMm() > 0 ? spec.stepMm() : usualStepMm(Math.sqrt(sheet.areaMm2()));
        StartSearch search = new StartSearch(sheet, spec.lockingDeg());
        StartSearch.Scored from = spec.start() == null ? search.bestStart(spec.warpAngleDeg())
                : search.score(StartSearch.at(sheet, spec.start()), spec.warpAngleDeg());
        StartSearch.Start start = from.start();
        DrapeNet net = NetGrowth.grow(sheet, start.triangle(), start.point(),
                WarpAim.from(sheet, start, spec.warpAngleDeg(), Math.sqrt(sheet.areaMm2()) / 8), step, MOST_NODES);
        double[] uv = NetLocator.locate(sheet, net);
        Bridging bridging = spec.leastRadiusMm() > 0 ? Bridging.of(sheet, spec.leastRadiusMm()) : Bridging.none(sheet.mesh().vertexCount());
        double[] shear = new double[sheet.mesh().triangleCount()];
        DrapeFigures figures = measure(net, uv, shear, bridging);
        List<DrapedPly.Dart> darts = List.of();
        DrapedPly.Split split = null;
        if (figures.lockedMm2() > 0 || figures.uncoveredMm2() > 0) {
            darts = new Relief(net, spec.lockingDeg()).darts();
            if (figures.lockedMm2() + figures.uncoveredMm2() > SPLIT_SHARE * figures.surfaceMm2()) {
                split = Relief.split(sheet, uv, spec);
            }
        }
        report(figures, shear, uv, bridging, darts, split);
        adviseDirection(search, from);
        return new DrapedPly(spec, net, start.point(), uv, shear, bridging.gapMm(), figures, darts, split,
                findings);
    }

    /** Seventy links across, but none under the width of a light cloth's tow, which says nothing about cloth. */
    private static double usualStepMm(double acrossMm) {
        return Math.max(Math.min(TOW_MM, acrossMm / 24), Math.min(8, acrossMm / 70));
    }

    private DrapeFigures measure(DrapeNet net, double[] uv, double[] shear, Bridging bridging) {
        TriangleMesh mesh = sheet.mesh();
        double draped = 0;
        double flat = 0;
        double uncovered = 0;
        double locked = 0;
        double max = 0;
        double[] area = new double[shear.length];
        for (int t = 0; t < shear.length; t++) {
            int a = 2 * mesh.triangles()[3 * t];
            int b = 2 * mesh.triangles()[3 * t + 1];
            int c = 2 * mesh.triangles()[3 * t + 2];
            area[t] = mesh.areaNormal(t).length() / 2;
            double f = ((uv[b] - uv[a]) * (uv[c + 1] - uv[a + 1]) - (uv[b + 1] - uv[a + 1]) * (uv[c] - uv[a])) / 2;
            if (Double.isNaN(f)) {
                shear[t] = Double.NaN;
                uncovered += area[t];
                continue;
            }
            double signed = shearAt(net, (uv[a] + uv[b] + uv[c]) / 3, (uv[a + 1] + uv[b + 1] + uv[c + 1]) / 3);
            shear[t] = Math.abs(signed);
            draped += f * Math.cos(Math.toRadians(signed));
            flat += f;
            max = Math.max(max, shear[t]);
            locked += shear[t] > spec.lockingDeg() ? area[t] : 0;
        }
        return new DrapeFigures(max, percentile95(shear, area), locked, bridging.areaMm2(), bridging.deepestMm(),
                sheet.areaMm2(), draped, flat, uncovered);
    }

    /** Shear of the cell around a flat point, or of one beside it. */
    private static double shearAt(DrapeNet net, double u, double v) {
        int i = (int) Math.floor(u / net.stepMm());
        int j = (int) Math.floor(v / net.stepMm());
        double shear = net.cellShearDeg(i, j);
        for (int k = 0; k < 9 && Double.isNaN(shear); k++) {
            shear = net.cellShearDeg(i + k / 3 - 1, j + k % 3 - 1);
        }
        return Double.isNaN(shear) ? 0 : shear;
    }

    /** By area. */
    private static double percentile95(double[] shear, double[] area) {
        Integer[] order = new Integer[shear.length];
        Arrays.setAll(order, t -> t);
        Arrays.sort(order, (s, t) -> Double.compare(shear[s], shear[t]));
        double total = 0;
        for (int t = 0; t < shear.length; t++) {
            total += Double.isNaN(shear[t]) ? 0 : area[t];
        }
        double sum = 0;
        double last = 0;
        for (int t : order) {
            if (Double.isNaN(shear[t])) {
                break;
            }
            last = shear[t];
            sum += area[t];
            if (sum >= 0.95 * total) {
                break;
            }
        }
        return last;
    }

    private void report(DrapeFigures figures, double[] shear, double[] uv, Bridging bridging,
            List<DrapedPly.Dart> darts, DrapedPly.Split split) {
        if (figures.lockedMm2() > 0) {
            int worst = 0;
            for (int t = 1; t < shear.length; t++) {
                worst = !(shear[t] <= shear[worst]) && !Double.isNaN(shear[t]) ? t : worst;
            }
            findings.add(Finding.warning("drape", "shear-beyond-locking", text(
                    "The cloth must shear to %.0f°, past the %.0f° at which this weave jams, over %.1f cm²; it will "
                            + "wrinkle there.", figures.maxShearDeg(), spec.lockingDeg(), figures.lockedMm2() / 100))
                    .at(place(sheet.mesh().centroid(worst)))
                    .measured(figures.maxShearDeg(), spec.lockingDeg(), "deg").advising(relief(darts, split)));
        }
        if (figures.uncoveredMm2() > 1e-3 * figures.surfaceMm2()) {
            findings.add(Finding.warning("drape", "cloth-does-not-reach", text(
                    "One piece of cloth cannot lie on %.1f cm² of the tool: its threads close up before they get there.",
                    figures.uncoveredMm2() / 100)).at(place(firstUncovered(uv)))
                    .measured(figures.uncoveredMm2(), 0.0, "mm2").advising(relief(darts, split)));
        }
        if (bridging.deepest() >= 0) {
            findings.add(Finding.warning("drape", "cloth-bridges", text(
                    "The cloth spans corners tighter than the %.1f mm radius it follows, over %.1f cm²; the gap under "
                            + "it reaches %.2f mm.", spec.leastRadiusMm(), bridging.areaMm2() / 100,
                    bridging.deepestMm())).at(place(sheet.mesh().vertex(bridging.deepest())))
                    .measured(bridging.deepestMm(), 0.0, "mm")
                    .advising("Fill the corner with a fillet of thickened resin or a yarn before the first ply, or "
                            + "round the model there."));
        }
        if (spec.weave() == Weave.CHOPPED_MAT) {
            findings.add(Finding.info("drape", "mat-has-no-threads",
                    "A chopped mat has no threads to follow; the template is a guide, tear and overlap where it folds."));
        }
    }

    private void adviseDirection(StartSearch search, StartSearch.Scored from) {
        StartSearch.Scored better = search.bestAngle(from);
        if (better.distortion() < 0.8 * from.distortion() && from.distortion() > WORTH_TURNING) {
            findings.add(Finding.info("drape", "better-warp-angle", text(
                    "Laid at %.0f° instead of %.0f° this ply would shear less.", better.warpAngleDeg(),
                    from.warpAngleDeg())).measured(better.warpAngleDeg(), from.warpAngleDeg(), "deg")
                    .advising("Turn the ply if its direction is not needed for strength."));
        }
    }

    private static String relief(List<DrapedPly.Dart> darts, DrapedPly.Split split) {
        String cut = darts.isEmpty() ? "" : text("Cut %d dart%s as marked on the template. ", darts.size(),
                darts.size() == 1 ? "" : "s");
        return split == null ? cut + "Small places are worked in by hand; a looser weave or another start point may do."
                : cut + text("Or cut the ply in two along a %s thread, %.0f mm from the start mark, and lap the halves "
                        + "by the margin: %.0f %% of the area would then still lock.",
                split.alongWarp() ? "warp" : "weft", split.atMm(), 100 * split.lockedShare());
    }

    private Vector3d firstUncovered(double[] uv) {
        for (int v : sheet.mesh().triangles()) {
            if (Double.isNaN(uv[2 * v])) {
                return sheet.mesh().vertex(v);
            }
        }
        throw new IllegalStateException("every vertex is covered");
    }

    private Place place(Vector3d inMold) {
        return Place.at(moldToPart.apply(inMold));
    }

    private static String text(String format, Object... figures) {
        return String.format(Locale.ROOT, format, figures);
    }
}
