package layupmold.geometry.inspect;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.recipe.Printer;
import layupmold.geometry.recipe.Recipe;

/** Says what of the inspection's figures deserves a look before printing, and what to do. */
final class InspectionFindings {

    private static final String STAGE = "inspect";
    /** Smaller areas are slivers of tessellation. */
    private static final double LEAST_AREA_MM2 = 1;
    private static final double MM2_PER_CM2 = 100;
    /** Laminates thicker than this heat up when laid in one go: common practice, no source. */
    private static final double THICK_LAMINATE_MM = 4;

    private final List<Finding> findings = new ArrayList<>();
    private final Recipe recipe;

    private InspectionFindings(Recipe recipe) {
        this.recipe = recipe;
    }

    static List<Finding> of(ThicknessFigures wall, DemoldFigures demold, FabricFigures fabric, PrintFigures print,
            double laminateMm, Recipe recipe) {
        InspectionFindings all = new InspectionFindings(recipe);
        all.wall(wall);
        all.undercut(demold);
        all.draft(demold);
        all.bridges(fabric);
        all.detail(fabric);
        all.overhang(print);
        all.bed(print.bed());
        all.heat(print.heat(), laminateMm);
        return all.findings;
    }

    private void wall(ThicknessFigures wall) {
        if (!wall.thinRegions().isEmpty()) {
            ThinRegion thinnest = wall.thinRegions().get(0);
            findings.add(Finding.warning(STAGE, "thin-wall", text("The solid is thinner than %.2f mm in %s.",
                    wall.limitMm(), places(wall.thinRegions().size())))
                    .at(thinnest.at()).measured(thinnest.leastMm(), wall.limitMm(), "mm")
                    .advising("Thin ridges copy grooves of the part: they print weak and may break at demolding. Fill the "
                            + "groove in the model, or print this place slowly and lever gently."));
        }
    }

    private void undercut(DemoldFigures demold) {
        if (demold.lockedRegions().isEmpty()) {
            return;
        }
        LockedRegion deepest = demold.lockedRegions().get(0);
        boolean locked = demold.verdict() == Verdict.LOCKED;
        String depth = Double.isInfinite(deepest.depthMm()) ? "without a way out" : text("%.2f mm deep", deepest.depthMm());
        Finding finding = Finding.warning(STAGE, locked ? "part-locked" : "part-must-spring",
                text("Undercut of %s in %s, %s, %s.", area(demold.undercutMm2()),
                        places(demold.lockedRegions().size()), depth,
                        locked ? "locks the part in the mold" : "must spring free"));
        if (!Double.isInfinite(deepest.depthMm())) {
            finding = finding.measured(deepest.depthMm(), demold.flexLimitMm(), "mm");
        }
        findings.add(finding.at(deepest.at()).advising(wayOut(demold)));
    }

    private static String wayOut(DemoldFigures demold) {
        OtherPull other = demold.otherPull();
        String pull = other == null || other.gainMm2() < LEAST_AREA_MM2 ? ""
                : text("Another pull, given in this report, would spare %s of it. ", area(other.gainMm2()));
        return pull + (demold.split() != null ? demold.split().words()
                : "Loosen the edge all around first and pull evenly; soften the place in the model if it may change.");
    }

    /** Where the mold holds the part, that is said already. */
    private void draft(DemoldFigures demold) {
        if (!demold.lockedRegions().isEmpty()) {
            return;
        }
        double tight = demold.drafts().stream().mapToDouble(DraftFigures::tightMm2).sum();
        DraftFigures least = demold.leastDraft();
        double limit = recipe.inspect().leastDraftDeg();
        if (tight > LEAST_AREA_MM2 && least.leastDeg() < limit) {
            findings.add(Finding.warning(STAGE, "little-draft", text("%s of the mold's walls lean less than %.1f° "
                    + "away from the pull.", area(tight), limit))
                    .at(least.leastAt()).measured(least.leastDeg(), limit, "deg")
                    .advising("Polish and wax these walls well and use a release film; give them more draft if the model "
                            + "may change, or tilt the pull."));
        }
    }

    private void bridges(FabricFigures fabric) {
        if (!fabric.bridges().isEmpty()) {
            Bridge deepest = fabric.bridges().get(0);
            double mm2 = fabric.bridges().stream().mapToDouble(Bridge::areaMm2).sum();
            findings.add(Finding.warning(STAGE, "cloth-bridges", text("The cloth follows no curve tighter than %.2f mm and "
                    + "spans %s, %s in all; the gap under it reaches %.2f mm.", fabric.clothRadiusMm(),
                    places(fabric.bridges().size()), area(mm2), deepest.gapMm()))
                    .at(deepest.at()).measured(deepest.radiusMm(), fabric.clothRadiusMm(), "mm")
                    .advising("Fill these corners with thickened resin or a strand of yarn before the first ply, round "
                            + "them in the model, or take a lighter cloth."));
        }
    }

    private void detail(FabricFigures fabric) {
        if (fabric.lostDetailMm2() > LEAST_AREA_MM2) {
            findings.add(Finding.info(STAGE, "detail-lost", text("Release layer and finish coat close lines up to %.2f mm "
                    + "wide and round sharper edges; %s of the tool is that fine.", fabric.lostDetailMm(),
                    area(fabric.lostDetailMm2()))).measured(fabric.lostDetailMm(), null, "mm")
                    .advising("Use a thinner release film or coat, or cut the lines wider."));
        }
    }

    private void overhang(PrintFigures print) {
        if (print.overhangMm2() > LEAST_AREA_MM2) {
            findings.add(Finding.warning(STAGE, "overhang", text("%s in %s print over air: they lean more than "
                    + "%.0f° from the vertical.", area(print.overhangMm2()), places(print.overhangs().size()),
                    print.overhangLimitDeg()))
                    .at(print.overhangs().get(0).at()).measured(print.overhangMm2(), 0.0, "mm2")
                    .advising("Print with supports there, and smooth the tool surface where they touched it."));
        }
    }

    private void bed(BedFit bed) {
        Printer printer = recipe.printer();
        if (bed.heightMm() > printer.heightMm()) {
            findings.add(Finding.warning(STAGE, "too-tall", "The mold is taller than the printer reaches.")
                    .measured(bed.heightMm(), printer.heightMm(), "mm")
                    .advising("Split the part, or lower the flange's rise and the wall."));
        }
        if (bed.leastBedXMm() > printer.bedXMm() * (1 + 1e-6)) {
            findings.add(Finding.warning(STAGE, "bed-too-small", text("The mold does not fit the bed of %.0f × %.0f mm "
                    + "however it is turned.", printer.bedXMm(), printer.bedYMm()))
                    .measured(bed.leastBedXMm(), printer.bedXMm(), "mm")
                    .advising(text("A bed of %.0f × %.0f mm would hold it, turned as this report says; or make the flange "
                            + "narrower, or split the part.", Math.ceil(bed.leastBedXMm()),
                            Math.ceil(bed.leastBedYMm()))));
        } else if (bed.turnDeg() > 0) {
            findings.add(Finding.info(STAGE, "turn-on-bed", "The mold fits the bed only if it is turned as this report "
                    + "says."));
        }
    }

    private void heat(HeatFigures heat, double laminateMm) {
        if (heat.marginC() < PrintFit.LEAST_MARGIN_C) {
            findings.add(Finding.warning(STAGE, "mold-softens", "The mold gets too warm for its material while the "
                    + "laminate cures.").measured(recipe.inspect().cureTemperatureC(),
                    heat.softensC() - PrintFit.LEAST_MARGIN_C, "degC").advising(heat.words()));
        }
        if (laminateMm > THICK_LAMINATE_MM) {
            findings.add(Finding.warning(STAGE, "exotherm", "So thick a laminate heats itself while it cures; thick epoxy "
                    + "can pass 100 °C, more than the mold stands.").measured(laminateMm, THICK_LAMINATE_MM, "mm")
                    .advising("Lay it up in stages, each gelled and cooled before the next, and keep to the resin's data "
                            + "sheet."));
        }
        if (recipe.printer().material() == Printer.Material.ABS) {
            findings.add(Finding.warning(STAGE, "material-cracks",
                    "ABS tends to crack when the laminate is levered off (common practice, no source).")
                    .advising(heat.words()));
        }
    }

    private static String places(int count) {
        return count == 1 ? "one place" : count + " places";
    }

    private static String area(double mm2) {
        return mm2 < MM2_PER_CM2 ? text("%.1f mm²", mm2) : text("%.1f cm²", mm2 / MM2_PER_CM2);
    }

    private static String text(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }
}
