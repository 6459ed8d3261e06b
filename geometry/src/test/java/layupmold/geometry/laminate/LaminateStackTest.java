package layupmold.geometry.laminate;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import layupmold.geometry.recipe.Layup;
import layupmold.geometry.recipe.Ply;
import layupmold.geometry.recipe.Weave;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;

class LaminateStackTest {

    /** compositecalculator.com, prepreg thickness: 225 g/m² in all, Wf 0.6778, 1.79 and 1.25 g/cm³ give 0.143 mm. */
    @Test
    void prepregWorkedExample() {
        double vf = LaminateStack.fibreVolumeFraction(0.6778, 1.79, 1.25);
        assertEquals(0.143, LaminateStack.curedPlyMm(225 * 0.6778, 1.79, vf), 0.0005);
    }

    /** avdweb.nl, composites theory: 4.24 g of carbon and 2.05 g of epoxy at 1.78 and 1.10 g/cm³ give Vf 0.56. */
    @Test
    void weighedSampleWorkedExample() {
        assertEquals(0.56, LaminateStack.fibreVolumeFraction(4.24 / (4.24 + 2.05), 1.78, 1.10), 0.005);
    }

    /** Trade handbooks give woven hand lay-up a fibre volume fraction of about 0.40 to 0.55; ours sits at its foot. */
    @Test
    void defaultHandLayUp() {
        LaminateFigures figures = LaminateStack.of(Layup.defaults());
        assertEquals(0.392, figures.fibreVolumeFraction(), 0.001);
        assertEquals(0.30, figures.plyMm().get(0), 0.005);
        assertEquals(figures.plyMm().get(0) + figures.plyMm().get(1), figures.laminateMm(), 1e-12);
        assertEquals(840, figures.arealWeightGsm(), 1e-9);
        assertEquals(84, figures.massG(100_000), 1e-9);
    }

    /** Mass is conserved: a square metre's thickness is the volume of its fibre plus the volume of its matrix. */
    @Property
    void thicknessIsFibreVolumePlusMatrixVolume(
            @ForAll @DoubleRange(min = 0.15, max = 0.85) double wf,
            @ForAll @DoubleRange(min = 1.0, max = 1.4) double matrixDensity,
            @ForAll @DoubleRange(min = 20, max = 900) double carbonGsm,
            @ForAll @DoubleRange(min = 20, max = 900) double glassGsm) {
        Layup layup = new Layup(List.of(new Ply(Weave.PLAIN, carbonGsm, 1.78, 0),
                new Ply(Weave.TWILL_2X2, glassGsm, 2.56, 90)), wf, matrixDensity, 0);
        LaminateFigures figures = LaminateStack.of(layup);
        double fibreMm = (carbonGsm / 1.78 + glassGsm / 2.56) / 1000;
        double matrixMm = figures.matrixGsm() / matrixDensity / 1000;
        assertEquals(fibreMm + matrixMm, figures.laminateMm(), 1e-9);
        assertEquals(fibreMm / figures.laminateMm(), figures.fibreVolumeFraction(), 1e-9);
        assertEquals(wf, figures.fibreGsm() / figures.arealWeightGsm(), 1e-9);
    }
}
