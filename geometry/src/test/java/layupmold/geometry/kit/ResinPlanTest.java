package layupmold.geometry.kit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import layupmold.geometry.laminate.MaterialTables;
import layupmold.geometry.recipe.Layup;
import layupmold.geometry.recipe.Ply;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;

class ResinPlanTest {

    private static final double SQUARE_METRE = 1e6;

    private static KitSpec noLoss(ResinSpec resin) {
        KitSpec d = KitSpec.defaults();
        return new KitSpec(20, 1000, 5, KitSpec.Paper.A4, resin, d.coatResin(), 0, 20, 8, 2, null, null);
    }

    private static ResinSpec resin(ResinSpec.MixBy by, double per100) {
        return new ResinSpec("test", by, per100, 1.10, 1.00, 1.15, 60, 250, 4, 24, 168, 24);
    }

    /** By hand: 1 m² of 210 g/m² at half resin by mass takes 210 g mixed; at 100:30 that is 161.5 g and 48.5 g. */
    @Test
    void onePlyByHand() {
        Layup layup = new Layup(List.of(Ply.carbonTwill(0)), 0.5, 1.15, 0.1);
        ResinPlan plan = ResinPlan.of(layup, List.of(SQUARE_METRE), SQUARE_METRE / 2,
                noLoss(resin(ResinSpec.MixBy.MASS, 30)));
        assertEquals(210, plan.clothG(), 1e-9);
        assertEquals(161.538, plan.resinG(), 1e-3);
        assertEquals(48.462, plan.hardenerG(), 1e-3);
        // Half a square metre, 0.1 mm thick, 1.12 g/cm³: 56 g.
        assertEquals(56, plan.finishResinG() + plan.finishHardenerG(), 1e-9);
    }

    /** Two to one by volume at 1.10 and 1.00 g/cm³ is 100 to 45.45 by mass. */
    @Test
    void volumeRatioNeedsDensities() {
        assertEquals(0.4545, resin(ResinSpec.MixBy.VOLUME, 50).hardenerPerResinByMass(), 1e-4);
        ResinPlan plan = ResinPlan.of(new Layup(List.of(Ply.carbonTwill(0)), 0.5, 1.15, 0), List.of(SQUARE_METRE), 0,
                noLoss(resin(ResinSpec.MixBy.VOLUME, 50)));
        ResinPlan.Coat coat = plan.coats().get(0);
        assertEquals(2, coat.cupResinMl() / coat.cupHardenerMl(), 1e-9);
    }

    /** Trade rule of thumb: ten degrees more halve the working time. */
    @Test
    void warmthShortensPotLife() {
        ResinSpec resin = resin(ResinSpec.MixBy.MASS, 30);
        assertEquals(60, resin.potLifeMin(20), 1e-9);
        assertEquals(30, resin.potLifeMin(30), 1e-9);
        assertTrue(ResinPlan.of(Layup.defaults(), List.of(1e5, 1e5), 1e5,
                noLoss(resin).withWorkshop(38)).findings().stream().anyMatch(f -> f.code().equals("short-pot-life")));
    }

    @Property(tries = 300)
    void cupsHoldTheirCoatAndNoCupIsTooLarge(@ForAll @DoubleRange(min = 100, max = 4e6) double areaMm2,
            @ForAll @DoubleRange(min = 10, max = 40) double celsius,
            @ForAll @DoubleRange(min = 0, max = 0.5) double loss) {
        KitSpec d = KitSpec.defaults();
        KitSpec spec = new KitSpec(20, 1000, 5, KitSpec.Paper.A4, d.resin(), d.coatResin(), loss, celsius, 8, 3,
                null, null);
        ResinPlan plan = ResinPlan.of(Layup.defaults(), List.of(areaMm2, areaMm2), areaMm2, spec);
        double mixed = 0;
        for (ResinPlan.Coat coat : plan.coats()) {
            double cup = coat.cupResinG() + coat.cupHardenerG();
            assertEquals(coat.mixedG(), cup * coat.cups(), 1e-9 * coat.mixedG());
            ResinSpec resin = coat.stage() == ResinPlan.Stage.FINISH ? spec.coatResin() : spec.resin();
            assertTrue(cup <= resin.largestCupG() + 1e-9);
            assertTrue(cup / spec.spreadGramsPerMin() <= resin.potLifeMin(celsius) / 2 + 1e-9);
            mixed += coat.stage() == ResinPlan.Stage.FINISH ? 0 : coat.mixedG();
        }
        assertEquals(mixed, plan.resinG() + plan.hardenerG(), 1e-6 * mixed);
        assertEquals(plan.clothG() * (1 + loss), mixed, 1e-6 * mixed);
    }

    @Test
    void aResinOfAnotherDensityThanTheLaminatesIsTold() {
        KitSpec polyester = KitSpec.defaults().withResin(ResinSpec.of(MaterialTables.resin("polyester")));
        assertTrue(ResinPlan.of(Layup.defaults(), List.of(1e5, 1e5), 1e5, polyester).findings().stream()
                .anyMatch(f -> f.code().equals("resin-density-differs")));
        assertTrue(ResinPlan.of(Layup.defaults(), List.of(1e5, 1e5), 1e5, KitSpec.defaults()).findings().stream()
                .noneMatch(f -> f.code().equals("resin-density-differs")));
    }

    @Test
    void impossibleFiguresAreRefused() {
        assertThrows(IllegalArgumentException.class, () -> resin(ResinSpec.MixBy.MASS, 0));
        assertThrows(IllegalArgumentException.class, () -> KitSpec.defaults().withRoll(Double.NaN));
        assertThrows(IllegalArgumentException.class,
                () -> ResinPlan.of(Layup.defaults(), List.of(1.0), 1, KitSpec.defaults()));
    }
}
