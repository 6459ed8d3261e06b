package layupmold.geometry.render;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;

class ValueScaleTest {

    @Test
    void ticksAreRoundAndInside() {
        assertEquals(List.of(0.0, 2.0, 4.0, 6.0, 8.0, 10.0), ValueScale.sequential("", "mm", 0, 10).ticks(6));
        ValueScale fine = ValueScale.sequential("", "mm", -0.031, 0.052);
        assertEquals(List.of("\u22120.02", "0.00", "0.02", "0.04"),
                fine.ticks(5).stream().map(tick -> fine.label(tick, 5)).toList());
    }

    @Property
    void anyScaleHasAFewEvenTicks(
            @ForAll @DoubleRange(min = -1e4, max = 1e4) double low, @ForAll @DoubleRange(min = 0.01, max = 1e4) double span) {
        ValueScale scale = ValueScale.sequential("", "mm", low, low + span);
        List<Double> ticks = scale.ticks(6);
        assertTrue(ticks.size() >= 3 && ticks.size() <= 12, ticks::toString);
        for (int i = 0; i < ticks.size(); i++) {
            assertTrue(ticks.get(i) >= low - 1e-6 * span && ticks.get(i) <= low + span * (1 + 1e-6));
            String label = scale.label(ticks.get(i), 6).replace('\u2212', '-');
            assertEquals(ticks.get(i), Double.parseDouble(label), 1e-9 * Math.max(1, Math.abs(low)));
        }
    }

    @Test
    void theLimitTakesTheMiddleColour() {
        ValueScale draft = ValueScale.about(3, "Draft", "deg", -5, 60);
        assertEquals(0.5, draft.fraction(3));
        assertEquals(0.25, draft.fraction(-1), 1e-12);
        assertEquals(0.75, draft.fraction(31.5), 1e-12);
        assertEquals(0, draft.fraction(-90));
        assertEquals(1, draft.fraction(90));
        assertEquals(ColourMap.NO_VALUE, draft.colour(Double.NaN));
    }

    @Test
    void aScaleWithoutExtentIsRefused() {
        assertThrows(IllegalArgumentException.class, () -> ValueScale.sequential("", "mm", 2, 2));
        assertThrows(IllegalArgumentException.class, () -> ValueScale.about(9, "", "mm", 0, 5));
        assertThrows(IllegalArgumentException.class, () -> ValueScale.sequential("", "mm", 0, Double.NaN));
    }
}
