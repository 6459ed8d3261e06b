package layupmold.geometry.kit;

import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.recipe.Layup;
import layupmold.geometry.recipe.Ply;

/**
 * How much to mix, and when.
 *
 * <p>Resin for a ply follows from its dry cloth by the fibre weight fraction Wf: {@code resin = cloth · (1 − Wf)/Wf},
 * and more by the loss share. A cup holds no more than the resin's largest cup, and no more than the hands can spread in
 * half its pot life.
 *
 * @param coats in the order of the work: for each ply one coat before the cloth and one that wets it out, then the
 *     finish coats
 * @param clothG dry cloth with margin, g
 * @param resinG resin to mix for the laminate, without hardener, g
 * @param hardenerG its hardener, g
 * @param finishResinG resin of the finish coat, g
 * @param finishHardenerG its hardener, g
 * @param finishMm2 area that the finish coat covers
 * @param potLifeMin pot life of the laminating resin at the workshop's temperature
 * @param findings cautions that follow from the figures
 */
public record ResinPlan(
        List<Coat> coats, double clothG, double resinG, double hardenerG, double finishResinG, double finishHardenerG,
        double finishMm2, double potLifeMin, List<Finding> findings) {

    /** Share of a ply's resin brushed on before its cloth is laid (common practice, no source). */
    private static final double BEFORE_CLOTH = 0.4;
    private static final double SAME_DENSITY = 0.02;
    private static final double WORKING_SHARE_OF_POT_LIFE = 0.5;

    public ResinPlan {
        coats = List.copyOf(coats);
        findings = List.copyOf(findings);
    }

    /** What a coat is for. */
    public enum Stage {
        BEFORE_PLY, WET_OUT, FINISH
    }

    /**
     * One coat and the cups it is mixed in.
     *
     * @param number ply or finish coat, from 1
     * @param mixedG resin and hardener together, g
     * @param cups equal cups
     * @param cupResinG resin in each, g
     * @param cupHardenerG hardener in each, g
     * @param cupResinMl resin in each, ml
     * @param cupHardenerMl hardener in each, ml
     */
    public record Coat(
            Stage stage, int number, double mixedG, int cups, double cupResinG, double cupHardenerG, double cupResinMl,
            double cupHardenerMl) {
    }

    /**
     * @param clothMm2 area of each ply as cut, margin included, in the layup's order
     * @param finishMm2 area of the trimmed part's outer side
     */
    public static ResinPlan of(Layup layup, List<Double> clothMm2, double finishMm2, KitSpec spec) {
        if (clothMm2.size() != layup.plies().size()) {
            throw new IllegalArgumentException("one area a ply, please");
        }
        List<Coat> coats = new ArrayList<>();
        double loss = 1 + spec.lossShare();
        double perCloth = (1 - layup.fibreWeightFraction()) / layup.fibreWeightFraction();
        double clothG = 0;
        double mixedG = 0;
        for (int k = 0; k < clothMm2.size(); k++) {
            Ply ply = layup.plies().get(k);
            double cloth = clothMm2.get(k) * 1e-6 * ply.arealWeightGsm();
            double mixed = cloth * perCloth * loss;
            coats.add(coat(Stage.BEFORE_PLY, k + 1, BEFORE_CLOTH * mixed, spec.resin(), spec));
            coats.add(coat(Stage.WET_OUT, k + 1, (1 - BEFORE_CLOTH) * mixed, spec.resin(), spec));
            clothG += cloth;
            mixedG += mixed;
        }
        double finishG = finishMm2 * layup.finishCoatMm() * 1e-3 * spec.coatResin().curedDensity() * loss;
        for (int n = 1; n <= spec.finishCoats() && finishG > 0; n++) {
            coats.add(coat(Stage.FINISH, n, finishG / spec.finishCoats(), spec.coatResin(), spec));
        }
        double ratio = spec.resin().hardenerPerResinByMass();
        double coatRatio = spec.coatResin().hardenerPerResinByMass();
        return new ResinPlan(coats, clothG, mixedG / (1 + ratio), mixedG * ratio / (1 + ratio),
                finishG / (1 + coatRatio), finishG * coatRatio / (1 + coatRatio), finishMm2,
                spec.resin().potLifeMin(spec.workshopC()), findings(coats, layup, spec));
    }

    /** Most that one cup may hold: by exotherm, and by what is spread in half the pot life. */
    static double largestCupG(ResinSpec resin, KitSpec spec) {
        double spread = spec.spreadGramsPerMin() * WORKING_SHARE_OF_POT_LIFE * resin.potLifeMin(spec.workshopC());
        return Math.min(resin.largestCupG(), spread);
    }

    private static Coat coat(Stage stage, int number, double mixedG, ResinSpec resin, KitSpec spec) {
        int cups = Math.max(1, (int) Math.ceil(mixedG / largestCupG(resin, spec) - 1e-9));
        double ratio = resin.hardenerPerResinByMass();
        double resinG = mixedG / cups / (1 + ratio);
        double hardenerG = resinG * ratio;
        return new Coat(stage, number, mixedG, cups, resinG, hardenerG, resinG / resin.resinDensity(),
                hardenerG / resin.hardenerDensity());
    }

    private static List<Finding> findings(List<Coat> coats, Layup layup, KitSpec spec) {
        List<Finding> findings = new ArrayList<>();
        double potLife = spec.resin().potLifeMin(spec.workshopC());
        int cups = coats.stream().filter(c -> c.stage() != Stage.FINISH).mapToInt(Coat::cups).max().orElse(1);
        if (cups > 1) {
            findings.add(Finding.info("kit", "resin-in-several-cups",
                    "One cup would run hot or gel before it is spread; mix each coat in the number of cups given, one "
                            + "after the other.").measured(cups, 1.0, "1"));
        }
        if (potLife < 20) {
            findings.add(Finding.warning("kit", "short-pot-life",
                    "At this temperature the resin gels within twenty minutes of mixing.").measured(potLife, 20.0, "min")
                    .advising("Use a slower hardener, a cooler room, or a second pair of hands."));
        }
        double cured = spec.resin().curedDensity();
        if (Math.abs(cured / layup.matrixDensity() - 1) > SAME_DENSITY) {
            findings.add(Finding.info("kit", "resin-density-differs",
                    "The laminate's thickness was reckoned with another cured density than this resin has.")
                    .measured(cured, layup.matrixDensity(), "g/cm3")
                    .advising("Give both the figure of the resin's data sheet."));
        }
        return findings;
    }
}
