package layupmold.geometry.laminate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import layupmold.geometry.recipe.Hold;
import layupmold.geometry.recipe.Tool;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;

class OffsetRuleTest {

    /** Stacks the layers from the tool outward (or inward) and asks where the held face of the finished part ends. */
    @Property
    void heldFaceOfTheFinishedPartIsTheModelledFace(
            @ForAll Tool tool, @ForAll Hold hold,
            @ForAll @DoubleRange(min = 0.05, max = 5) double laminate,
            @ForAll @DoubleRange(min = 0, max = 0.5) double release,
            @ForAll @DoubleRange(min = 0, max = 0.5) double finish) {
        double toolAt = OffsetRule.signedOffsetMm(tool, hold, laminate, release, finish);
        double outward = tool == Tool.FEMALE ? -1 : 1;
        double firstPlyAt = toolAt + outward * release;
        double lastPlyAt = firstPlyAt + outward * laminate;
        double inner = Math.min(firstPlyAt, lastPlyAt);
        double outer = Math.max(firstPlyAt, lastPlyAt) + finish;
        assertEquals(0, hold == Hold.INNER ? inner : outer, 1e-12);
    }

    @Test
    void saysHeldFaceAndSum() {
        String words = OffsetRule.words(Tool.FEMALE, Hold.INNER, 0.601, 0.05, 0.1);
        assertTrue(words.contains("inner face keeps the modelled size"), words);
        assertTrue(words.contains("0.651 mm outside"), words);
        assertTrue(words.contains("0.601 mm laminate + 0.050 mm release layer"), words);
    }

    @Test
    void aFinishCoatThickerThanTheReleaseLayerPutsTheToolInside() {
        String words = OffsetRule.words(Tool.FEMALE, Hold.OUTER, 0.6, 0.05, 0.1);
        assertTrue(words.contains("0.050 mm inside"), words);
        assertTrue(words.contains("release layer − 0.100 mm finish coat"), words);
    }

    @Test
    void plugHoldingTheOuterFaceCarriesEveryLayer() {
        assertEquals(-0.75, OffsetRule.signedOffsetMm(Tool.MALE, Hold.OUTER, 0.6, 0.05, 0.1), 1e-12);
        assertTrue(OffsetRule.words(Tool.MALE, Hold.OUTER, 0.6, 0.05, 0.1).contains("plug"));
    }
}
