package layupmold.geometry.face;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import layupmold.geometry.mesh.TriangleMesh;
import org.junit.jupiter.api.Test;

/** Heat on a flat square against the heat equation's closed forms. */
class SurfaceHeatTest {

    private static final int CELLS = 40;
    private static final double SIDE_MM = 10;

    /**
     * A cosine with no slope at the ends keeps its shape and shrinks: by {@code 1 / (1 + k² t)} in each of two
     * backward Euler steps of time {@code t}.
     */
    @Test
    void aCosineShrinksByItsWaveNumber() {
        TriangleMesh square = square();
        double k = Math.PI / SIDE_MM;
        double widthMm = 2;
        double[] mass = mass(square);
        double[] heat = new double[mass.length];
        Arrays.setAll(heat, v -> mass[v] * Math.cos(k * square.vertex(v).x));
        double[] after = new SurfaceHeat(square).spread(widthMm, mass, heat);
        double step = 1 + k * k * widthMm * widthMm / 4;
        for (int v = 0; v < after.length; v++) {
            assertEquals(Math.cos(k * square.vertex(v).x) / (step * step), after[v], 2e-3);
        }
    }

    /** Where nothing holds heat, temperatures are harmonic: linear between two sides that are held. */
    @Test
    void heatPassesThroughWhatHoldsNone() {
        TriangleMesh square = square();
        double[] mass = new double[square.vertexCount()];
        double[] heat = new double[mass.length];
        for (int v = 0; v < mass.length; v++) {
            double x = square.vertex(v).x;
            if (x == 0 || x == SIDE_MM) {
                mass[v] = 1e5;
                heat[v] = mass[v] * x;
            }
        }
        double[] after = new SurfaceHeat(square).spread(1, mass, heat);
        for (int v = 0; v < after.length; v++) {
            assertEquals(square.vertex(v).x, after[v], 1e-3);
        }
    }

    private static double[] mass(TriangleMesh mesh) {
        double[] mass = new double[mesh.vertexCount()];
        for (int i = 0; i < mesh.triangles().length; i++) {
            mass[mesh.triangles()[i]] += mesh.areaNormal(i / 3).length() / 6;
        }
        return mass;
    }

    private static TriangleMesh square() {
        int row = CELLS + 1;
        double[] xyz = new double[3 * row * row];
        for (int v = 0; v < row * row; v++) {
            xyz[3 * v] = v % row * SIDE_MM / CELLS;
            xyz[3 * v + 1] = v / row * SIDE_MM / CELLS;
        }
        int[] triangles = new int[6 * CELLS * CELLS];
        for (int c = 0; c < CELLS * CELLS; c++) {
            int v = c / CELLS * row + c % CELLS;
            int[] two = {v, v + 1, v + row + 1, v, v + row + 1, v + row};
            System.arraycopy(two, 0, triangles, 6 * c, 6);
        }
        return new TriangleMesh(xyz, triangles);
    }
}
