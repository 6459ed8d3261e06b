package layupmold.geometry.drape;

import java.util.Arrays;
import java.util.List;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Cloth on a sheet, measured.
 *
 * @param sheet what it lies on
 * @param nets of one cloth; more than one where it is cut
 * @param uv flat coordinates of each vertex, NaN where no cloth lies
 * @param shearDeg unsigned shear at each triangle, NaN where no cloth lies
 * @param figures what was measured
 */
record LaidCloth(ToolSheet sheet, List<DrapeNet> nets, double[] uv, double[] shearDeg, DrapeFigures figures) {

    /** @param bridging of the whole sheet: what a cut adds spans nothing */
    static LaidCloth measure(ToolSheet sheet, List<DrapeNet> nets, double lockingDeg, Bridging bridging) {
        NetLocator.Located located = NetLocator.locate(sheet, nets);
        double[] uv = located.uv();
        TriangleMesh mesh = sheet.mesh();
        double[] shear = new double[mesh.triangleCount()];
        double[] area = new double[shear.length];
        double draped = 0;
        double flat = 0;
        double uncovered = 0;
        double locked = 0;
        double max = 0;
        for (int t = 0; t < shear.length; t++) {
            int a = 2 * mesh.triangles()[3 * t];
            int b = 2 * mesh.triangles()[3 * t + 1];
            int c = 2 * mesh.triangles()[3 * t + 2];
            area[t] = mesh.areaNormal(t).length() / 2;
            double f = ((uv[b] - uv[a]) * (uv[c + 1] - uv[a + 1]) - (uv[b + 1] - uv[a + 1]) * (uv[c] - uv[a])) / 2;
            if (Double.isNaN(f)) {
                shear[t] = Double.NaN;
                uncovered += area[t];
                continue;
            }
            // Where nets of one cloth meet, the later one goes on from the earlier one's threads and has their cells.
            int[] owner = located.owner();
            DrapeNet net = nets.get(Math.max(owner[a / 2], Math.max(owner[b / 2], owner[c / 2])));
            double signed = shearAt(net, (uv[a] + uv[b] + uv[c]) / 3, (uv[a + 1] + uv[b + 1] + uv[c + 1]) / 3);
            shear[t] = Math.abs(signed);
            draped += f * Math.cos(Math.toRadians(signed));
            flat += f;
            max = Math.max(max, shear[t]);
            locked += shear[t] > lockingDeg ? area[t] : 0;
        }
        return new LaidCloth(sheet, nets, uv, shear, new DrapeFigures(max, percentile95(shear, area), locked,
                bridging.areaMm2(), bridging.deepestMm(), sheet.areaMm2(), draped, flat, uncovered));
    }

    /** Area that the cloth cannot lie on as it is cut, mm². */
    double amissMm2() {
        return figures.lockedMm2() + figures.uncoveredMm2();
    }

    /** The triangle that shears most. */
    int worst() {
        int worst = 0;
        for (int t = 1; t < shearDeg.length; t++) {
            worst = !(shearDeg[t] <= shearDeg[worst]) && !Double.isNaN(shearDeg[t]) ? t : worst;
        }
        return worst;
    }

    /** Shear of the cell around a flat point, or of one beside it. */
    private static double shearAt(DrapeNet net, double u, double v) {
        int i = (int) Math.floor(u / net.stepMm());
        int j = (int) Math.floor(v / net.stepMm());
        double shear = net.cellShearDeg(i, j);
        for (int k = 0; k < 9 && Double.isNaN(shear); k++) {
            shear = net.cellShearDeg(i + k / 3 - 1, j + k % 3 - 1);
        }
        return Double.isNaN(shear) ? 0 : shear;
    }

    /** By area. */
    private static double percentile95(double[] shear, double[] area) {
        // Shear is not negative, so its bits as a float sort like itself.
        long[] order = new long[shear.length];
        int covered = 0;
        double total = 0;
        for (int t = 0; t < shear.length; t++) {
            if (!Double.isNaN(shear[t])) {
                order[covered++] = (long) Float.floatToIntBits((float) shear[t]) << 32 | t;
                total += area[t];
            }
        }
        Arrays.parallelSort(order, 0, covered);
        double sum = 0;
        for (int k = 0; k < covered; k++) {
            int t = (int) order[k];
            sum += area[t];
            if (sum >= 0.95 * total) {
                return shear[t];
            }
        }
        return covered == 0 ? 0 : shear[(int) order[covered - 1]];
    }
}
