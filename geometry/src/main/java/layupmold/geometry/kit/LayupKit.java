package layupmold.geometry.kit;

import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.MoldOutcome;
import layupmold.geometry.RigidTransform;
import layupmold.geometry.drape.Drape;
import layupmold.geometry.drape.DrapeSpec;
import layupmold.geometry.drape.DrapedPly;
import layupmold.geometry.drape.FlatPattern;
import layupmold.geometry.drape.ToolSheet;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.laminate.LaminateFigures;
import layupmold.geometry.laminate.LaminateStack;
import layupmold.geometry.recipe.Layup;
import layupmold.geometry.recipe.Ply;
import layupmold.geometry.recipe.Recipe;

/**
 * What the bench needs for one part, computed from its mold.
 *
 * @param part name of the part
 * @param layup what it is made of
 * @param sheet the tool surface that cloth is laid on
 * @param drapes each ply as it lies, in the layup's order; plies of one cloth and direction share theirs
 * @param templates each ply as it is cut
 * @param laminate cured figures
 * @param partG mass of the trimmed part without finish coat, g
 * @param resin what to mix
 * @param findings of draping and mixing, each once
 */
public record LayupKit(
        String part, Layup layup, ToolSheet sheet, List<DrapedPly> drapes, List<PlyTemplate> templates,
        LaminateFigures laminate, double partG, ResinPlan resin, List<Finding> findings) {

    private static final int LONGEST_NAME = 80;

    public LayupKit {
        drapes = List.copyOf(drapes);
        templates = List.copyOf(templates);
        findings = List.copyOf(findings);
    }

    /** The kit of a finished mold. */
    public static LayupKit of(String part, MoldOutcome.Mold mold, Recipe recipe, KitSpec spec) {
        return of(part, ToolSheet.of(mold), recipe.layup(), recipe.inspect().clothRadiusMm(), spec,
                mold.partToMold().inverse());
    }

    /** {@code clothRadiusMm} taken from each weave. */
    public static LayupKit of(String part, ToolSheet sheet, Layup layup, KitSpec spec, RigidTransform moldToPart) {
        return of(part, sheet, layup, null, spec, moldToPart);
    }

    /**
     * @param sheet capped tool surface in the mold's frame
     * @param clothRadiusMm least concave radius every ply follows, or null to take it from weave and thickness
     * @param moldToPart for places in findings
     * @throws layupmold.geometry.finding.Rejection if the sheet has no area
     */
    public static LayupKit of(String part, ToolSheet sheet, Layup layup, Double clothRadiusMm, KitSpec spec,
            RigidTransform moldToPart) {
        String name = printable(part);
        LaminateFigures laminate = LaminateStack.of(layup);
        List<DrapeSpec> hows = new ArrayList<>();
        for (int k = 0; k < layup.plies().size(); k++) {
            hows.add(howToLay(layup.plies().get(k), laminate.plyMm().get(k), clothRadiusMm, spec, moldToPart));
        }
        List<DrapeSpec> ways = hows.stream().distinct().toList();
        List<DrapedPly> draped = Drape.plies(sheet, ways, moldToPart);
        List<DrapedPly> drapes = new ArrayList<>();
        List<PlyTemplate> templates = new ArrayList<>();
        List<Double> clothMm2 = new ArrayList<>();
        for (int k = 0; k < layup.plies().size(); k++) {
            DrapedPly lying = draped.get(ways.indexOf(hows.get(k)));
            drapes.add(lying);
            PlyTemplate template = new PlyTemplate(name, k + 1, layup.plies().size(), layup.plies().get(k),
                    FlatPattern.of(lying, spec.marginMm()));
            templates.add(template);
            clothMm2.add(template.clothMm2());
        }
        double partMm2 = sheet.trimmed().area();
        ResinPlan resin = ResinPlan.of(layup, clothMm2, partMm2, spec);
        List<Finding> findings = new ArrayList<>();
        draped.forEach(d -> findings.addAll(named(d, drapes)));
        findings.addAll(resin.findings());
        return new LayupKit(name, layup, sheet, drapes, templates, laminate, laminate.massG(partMm2), resin,
                findings.stream().distinct().toList());
    }

    /** A ply's findings, saying which plies lie like it. */
    private static List<Finding> named(DrapedPly lying, List<DrapedPly> drapes) {
        List<String> numbers = new ArrayList<>();
        for (int k = 0; k < drapes.size(); k++) {
            if (drapes.get(k) == lying) {
                numbers.add(String.valueOf(k + 1));
            }
        }
        String name = (numbers.size() == 1 ? "Ply " : "Plies ") + String.join(", ", numbers) + ": ";
        return lying.findings().stream().map(f -> new Finding(f.severity(), f.stage(), f.code(), name + f.message(),
                f.place(), f.figure(), f.limit(), f.unit(), f.advice())).toList();
    }

    /** The weave's own figures where recipe and kit say nothing else. */
    static DrapeSpec howToLay(Ply ply, double plyMm, Double clothRadiusMm, KitSpec spec, RigidTransform moldToPart) {
        DrapeSpec usual = DrapeSpec.of(ply, plyMm);
        return new DrapeSpec(usual.weave(), usual.warpAngleDeg(),
                spec.start() == null ? null : moldToPart.inverse().apply(spec.start()), usual.stepMm(),
                spec.lockingDeg() == null ? usual.lockingDeg() : spec.lockingDeg(),
                clothRadiusMm == null ? usual.leastRadiusMm() : clothRadiusMm);
    }

    /** A name that may stand on a page and in XML: one line, no control characters, not endless. */
    private static String printable(String part) {
        StringBuilder name = new StringBuilder();
        (part == null ? "" : part).strip().codePoints().limit(LONGEST_NAME)
                .map(c -> Character.isDefined(c) && !Character.isISOControl(c)
                        && Character.getType(c) != Character.SURROGATE && (c & 0xFFFE) != 0xFFFE ? c : ' ')
                .forEach(name::appendCodePoint);
        return name.toString().isBlank() ? "part" : name.toString();
    }
}
