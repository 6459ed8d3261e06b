package layupmold.geometry.drape;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import layupmold.geometry.RigidTransform;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.finding.Rejection;
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
    /** What may stay amiss, as a share of the tool, before a ply is to be cut in two. */
    private static final double SPLIT_SHARE = 0.15;
    private static final double WORTH_SPLITTING = 0.8;
    /** Width of a 3K tow as it lies in light cloth (common practice, no source). */
    private static final double TOW_MM = 2;
    /** About nine degrees of shear in the mean. */
    private static final double WORTH_TURNING = 0.1;
    private static final int LAID_IN_FULL = 3;

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
        return plies(sheet, List.of(spec), moldToPart).get(0);
    }

    /** Several plies on one sheet, side by side on the machine's cores; see {@link #ply}. */
    public static List<DrapedPly> plies(ToolSheet sheet, List<DrapeSpec> specs, RigidTransform moldToPart) {
        if (!(sheet.areaMm2() > 1e-6)) {
            throw new Rejection(Finding.error("drape", "no-tool-surface", "There is no tool surface to lay cloth on."));
        }
        // Corners are the tool's: cloths that follow the same radius span the same ones.
        Map<Double, Bridging> bridging = new HashMap<>();
        specs.forEach(spec -> bridging.computeIfAbsent(spec.leastRadiusMm(), radius -> radius > 0
                ? Bridging.of(sheet, radius) : Bridging.none(sheet.mesh().vertexCount())));
        return specs.parallelStream().map(spec -> new Drape(sheet, spec, moldToPart)
                .run(bridging.get(spec.leastRadiusMm()))).toList();
    }

    private DrapedPly run(Bridging bridging) {
        StartSearch search = new StartSearch(sheet, spec.lockingDeg());
        List<StartSearch.Scored> starts = spec.start() == null ? search.starts(spec.warpAngleDeg())
                : List.of(search.score(StartSearch.at(sheet, spec.start()), spec.warpAngleDeg()));
        Laid laid = lay(sheet, starts, bridging);
        StartSearch.Scored from = laid.from();
        LaidCloth whole = laid.cloth();
        Darts.Darted darted = whole.amissMm2() > 0 ? Darts.cut(whole, spec, bridging) : null;
        LaidCloth cloth = darted == null ? whole : darted.cloth();
        DrapedPly.Split split = cloth.amissMm2() <= SPLIT_SHARE * sheet.areaMm2() ? null : split(whole, cloth);
        List<DrapedPly.Dart> darts = darted == null ? List.of() : darted.darts();
        report(whole, cloth, bridging, darts, split);
        adviseDirection(search, from);
        return ply(cloth, from.start(), bridging, darted == null ? null : whole.figures(), darts, split);
    }

    /** Null where two pieces lie hardly better than one. */
    private DrapedPly.Split split(LaidCloth whole, LaidCloth asCut) {
        DrapedPly.Split split = new SplitSearch(sheet, whole.uv(), spec).best(this::piece);
        return split.amissShare() * sheet.areaMm2() < WORTH_SPLITTING * asCut.amissMm2() ? split : null;
    }

    private record Laid(StartSearch.Scored from, LaidCloth cloth) {
    }

    /** From the best start; where that leaves anything amiss, which coarse nets cannot tell, from the next ones too. */
    private Laid lay(ToolSheet on, List<StartSearch.Scored> starts, Bridging bridging) {
        Laid best = null;
        for (StartSearch.Scored from : starts.subList(0, Math.min(LAID_IN_FULL, starts.size()))) {
            LaidCloth cloth = lay(on, from.start(), bridging);
            best = best == null || flawsMm2(cloth) < flawsMm2(best.cloth) ? new Laid(from, cloth) : best;
            if (best.cloth.amissMm2() == 0) {
                break;
            }
        }
        return best;
    }

    /** What is amiss, and what the net itself is off where its threads close up. */
    private static double flawsMm2(LaidCloth cloth) {
        return cloth.amissMm2() + Math.abs(cloth.figures().areaImbalance()) * cloth.figures().surfaceMm2();
    }

    private LaidCloth lay(ToolSheet on, StartSearch.Start start, Bridging bridging) {
        double across = Math.sqrt(on.areaMm2());
        double step = spec.stepMm() > 0 ? spec.stepMm() : usualStepMm(across);
        DrapeNet net = NetGrowth.grow(on, start.triangle(), start.point(),
                WarpAim.from(on, start, spec.warpAngleDeg(), across / 8), step, MOST_NODES);
        return LaidCloth.measure(on, List.of(net), spec.lockingDeg(), bridging);
    }

    /** A piece of the ply, from its own best starts and with darts of its own. */
    private DrapedPly piece(ToolSheet on) {
        Bridging unasked = Bridging.none(on.mesh().vertexCount());
        Laid laid = lay(on, new StartSearch(on, spec.lockingDeg()).starts(spec.warpAngleDeg()), unasked);
        StartSearch.Start start = laid.from().start();
        LaidCloth whole = laid.cloth();
        Darts.Darted darted = whole.amissMm2() > 0 ? Darts.cut(whole, spec, unasked) : null;
        return darted == null ? ply(whole, start, unasked, null, List.of(), null)
                : ply(darted.cloth(), start, unasked, whole.figures(), darted.darts(), null);
    }

    private DrapedPly ply(LaidCloth cloth, StartSearch.Start start, Bridging bridging, DrapeFigures inOnePiece,
            List<DrapedPly.Dart> darts, DrapedPly.Split split) {
        return new DrapedPly(spec, cloth.sheet(), cloth.nets().get(0), start.point(), cloth.uv(), cloth.shearDeg(),
                Arrays.copyOf(bridging.gapMm(), cloth.sheet().mesh().vertexCount()), cloth.figures(), inOnePiece, darts,
                split, findings);
    }

    /** Seventy links across, but none under the width of a light cloth's tow, which says nothing about cloth. */
    private static double usualStepMm(double acrossMm) {
        return Math.max(Math.min(TOW_MM, acrossMm / 24), Math.min(8, acrossMm / 70));
    }

    private void report(LaidCloth whole, LaidCloth cloth, Bridging bridging, List<DrapedPly.Dart> darts,
            DrapedPly.Split split) {
        DrapeFigures figures = cloth.figures();
        if (cloth != whole) {
            findings.add(Finding.warning("drape", "cloth-needs-darts", text(
                    "In one piece the cloth would shear to %.0f°, past the %.0f° at which this weave jams, and not lie "
                            + "on %.1f cm². With the %d dart%s on the template it shears to %.0f°, and %.1f cm² stay.",
                    whole.figures().maxShearDeg(), spec.lockingDeg(), whole.amissMm2() / 100, darts.size(),
                    darts.size() == 1 ? "" : "s", figures.maxShearDeg(), cloth.amissMm2() / 100))
                    .at(place(whole.sheet().mesh().centroid(whole.worst())))
                    .measured(whole.figures().maxShearDeg(), spec.lockingDeg(), "deg")
                    .advising("Cut the darts out as marked and butt their edges; stagger them from ply to ply."));
        }
        if (figures.lockedMm2() > 0) {
            findings.add(Finding.warning("drape", "shear-beyond-locking", text(
                    "The cloth must shear to %.0f°, past the %.0f° at which this weave jams, over %.1f cm²; it will "
                            + "wrinkle there.", figures.maxShearDeg(), spec.lockingDeg(), figures.lockedMm2() / 100))
                    .at(place(cloth.sheet().mesh().centroid(cloth.worst())))
                    .measured(figures.maxShearDeg(), spec.lockingDeg(), "deg").advising(relief(split)));
        }
        if (figures.uncoveredMm2() > 1e-3 * figures.surfaceMm2()) {
            findings.add(Finding.warning("drape", "cloth-does-not-reach", text(
                    "One piece of cloth cannot lie on %.1f cm² of the tool: its threads close up before they get there.",
                    figures.uncoveredMm2() / 100)).at(place(firstUncovered(cloth)))
                    .measured(figures.uncoveredMm2(), 0.0, "mm2").advising(relief(split)));
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

    private static String relief(DrapedPly.Split split) {
        if (split == null) {
            return "Small places are worked in by hand; a looser weave or another start point may do.";
        }
        boolean darts = split.pieces().stream().anyMatch(piece -> !piece.darts().isEmpty());
        return text("Cut the ply in two along a %s thread, %.0f mm from the start mark, and lap the halves by the margin: "
                + "laid again so%s, they shear to %.0f°, and %.0f %% of the area still locks or stays bare.",
                split.alongWarp() ? "warp" : "weft", split.atMm(), darts ? " with darts of their own" : "",
                split.maxShearDeg(), 100 * split.amissShare());
    }

    private static Vector3d firstUncovered(LaidCloth cloth) {
        for (int v : cloth.sheet().mesh().triangles()) {
            if (Double.isNaN(cloth.uv()[2 * v])) {
                return cloth.sheet().mesh().vertex(v);
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
