package layupmold.geometry.mesh.prepare;

/**
 * How far positions in a posted mesh may be off without meaning anything.
 *
 * @param roundingMm four units in the last place of a float32 at the largest coordinate: lengths below it are noise
 * @param crackMm how far the two sides of a crack may be apart: rounding, or 1/100,000 of the part's diagonal, which
 *     is what six decimal digits of text leave
 */
record Tolerances(double roundingMm, double crackMm) {

    static Tolerances of(double[] xyz) {
        double largest = 0;
        double[] least = {Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY};
        double[] most = {Double.NEGATIVE_INFINITY, Double.NEGATIVE_INFINITY, Double.NEGATIVE_INFINITY};
        for (int i = 0; i < xyz.length; i++) {
            largest = Math.max(largest, Math.abs(xyz[i]));
            least[i % 3] = Math.min(least[i % 3], xyz[i]);
            most[i % 3] = Math.max(most[i % 3], xyz[i]);
        }
        double diagonal = Math.sqrt(Math.pow(most[0] - least[0], 2) + Math.pow(most[1] - least[1], 2)
                + Math.pow(most[2] - least[2], 2));
        double rounding = 4.0 * Math.ulp((float) largest);
        return new Tolerances(rounding, Math.max(rounding, 1e-5 * diagonal));
    }
}
