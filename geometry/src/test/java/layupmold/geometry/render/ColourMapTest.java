package layupmold.geometry.render;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

class ColourMapTest {

    /**
     * Full-severity simulations on linear sRGB: Machado, Oliveira and Fernandes, "A physiologically-based model for
     * simulation of color vision deficiency", IEEE TVCG 15(6), 2009.
     */
    private static final List<double[][]> DEFICIENCIES = List.of(
            new double[][] {
                {0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}},
            new double[][] {
                {0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}},
            new double[][] {
                {1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}});

    static Stream<Arguments> maps() {
        return Stream.of(Arguments.of("sequential", ColourMap.SEQUENTIAL), Arguments.of("diverging", ColourMap.DIVERGING));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("maps")
    void equalStepsLookEquallyLarge(String name, ColourMap map) {
        int[] table = map.table();
        double least = Double.MAX_VALUE;
        double most = 0;
        // Sixteen entries at a time, so that rounding to 8 bits evens out.
        for (int from = 0; from + 16 < table.length; from += 16) {
            double step = Oklab.ofRgb(table[from]).distance(Oklab.ofRgb(table[from + 16]));
            least = Math.min(least, step);
            most = Math.max(most, step);
        }
        assertTrue(most / least < 1.12, "sixteenths of the map differ between " + least + " and " + most);
    }

    @Test
    void theSequentialMapKeepsItsOrderInGreyAndInEveryColourVision() {
        for (int i = 0; i < 32; i++) {
            int low = ColourMap.SEQUENTIAL.at(i / 32.0);
            int high = ColourMap.SEQUENTIAL.at((i + 1) / 32.0);
            assertTrue(Oklab.ofRgb(high).l() > Oklab.ofRgb(low).l() + 0.01);
            for (double[][] deficiency : DEFICIENCIES) {
                assertTrue(seen(high, deficiency).l() > seen(low, deficiency).l() + 0.005);
            }
        }
    }

    @Test
    void theSequentialMapLosesLittleOfItsRangeToAnyDeficiency() {
        for (double[][] deficiency : DEFICIENCIES) {
            double length = 0;
            for (int i = 0; i < 16; i++) {
                double step = seen(ColourMap.SEQUENTIAL.at(i / 16.0), deficiency)
                        .distance(seen(ColourMap.SEQUENTIAL.at((i + 1) / 16.0), deficiency));
                // 0.02 is about just noticeable; a sixteenth must be more than that.
                assertTrue(step > 0.025, "step " + i + " is " + step);
                length += step;
            }
            assertTrue(length > 0.6, "length " + length);
        }
    }

    @Test
    void bothSidesOfTheDivergingMapAreToldApartByEveryColourVision() {
        for (double t = 0.05; t <= 0.5; t += 0.05) {
            int below = ColourMap.DIVERGING.at(0.5 - t);
            int above = ColourMap.DIVERGING.at(0.5 + t);
            // Alike in lightness by design, so hue alone must part them.
            assertEquals(Oklab.ofRgb(below).l(), Oklab.ofRgb(above).l(), 0.04);
            double wanted = t < 0.15 ? 0.025 : 0.08;
            assertTrue(Oklab.ofRgb(below).distance(Oklab.ofRgb(above)) > wanted);
            for (double[][] deficiency : DEFICIENCIES) {
                double apart = seen(below, deficiency).distance(seen(above, deficiency));
                assertTrue(apart > wanted, "at " + t + ": " + apart);
            }
        }
    }

    @Test
    void theDivergingMapDarkensEvenlyAwayFromItsMiddle() {
        for (int i = 0; i < 16; i++) {
            double near = i / 32.0;
            double far = (i + 1) / 32.0;
            assertTrue(lab(ColourMap.DIVERGING, 0.5 - far).l() < lab(ColourMap.DIVERGING, 0.5 - near).l());
            assertTrue(lab(ColourMap.DIVERGING, 0.5 + far).l() < lab(ColourMap.DIVERGING, 0.5 + near).l());
        }
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("maps")
    void valuesOutsideAreClampedAndNoValueHasItsOwnColour(String name, ColourMap map) {
        assertEquals(map.at(0), map.at(-3));
        assertEquals(map.at(1), map.at(7));
        assertEquals(ColourMap.NO_VALUE, map.at(Double.NaN));
        for (int colour : map.table()) {
            assertTrue(Oklab.ofRgb(colour).distance(Oklab.ofRgb(ColourMap.NO_VALUE)) > 0.03);
        }
    }

    private static Oklab lab(ColourMap map, double t) {
        return Oklab.ofRgb(map.at(t));
    }

    private static Oklab seen(int rgb, double[][] deficiency) {
        double[] linear = {
            Oklab.linearOfByte(rgb >> 16 & 255), Oklab.linearOfByte(rgb >> 8 & 255), Oklab.linearOfByte(rgb & 255)};
        double[] out = new double[3];
        for (int i = 0; i < 3; i++) {
            for (int k = 0; k < 3; k++) {
                out[i] += deficiency[i][k] * linear[k];
            }
            out[i] = Math.max(0, Math.min(1, out[i]));
        }
        return Oklab.ofLinear(out[0], out[1], out[2]);
    }
}
