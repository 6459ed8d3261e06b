package layupmold.geometry.mesh.prepare;

/** Points against segments. */
final class Segments {

    private Segments() {
    }

    /** Where vertex {@code v} projects on the line through two points: 0 at the first, 1 at the second; 0 if they coincide. */
    static double parameter(double[] xyz, int v, double[] from, double[] to) {
        double dot = 0;
        double length2 = 0;
        for (int k = 0; k < 3; k++) {
            double d = to[k] - from[k];
            dot += (xyz[3 * v + k] - from[k]) * d;
            length2 += d * d;
        }
        return length2 > 0 ? dot / length2 : 0;
    }

    /** Distance of vertex {@code v} from the segment. */
    static double distance(double[] xyz, int v, double[] from, double[] to) {
        double t = Math.max(0, Math.min(1, parameter(xyz, v, from, to)));
        double sum = 0;
        for (int k = 0; k < 3; k++) {
            double d = xyz[3 * v + k] - (from[k] + t * (to[k] - from[k]));
            sum += d * d;
        }
        return Math.sqrt(sum);
    }

    static double length(double[] xyz, int a, int b) {
        double dx = xyz[3 * b] - xyz[3 * a];
        double dy = xyz[3 * b + 1] - xyz[3 * a + 1];
        double dz = xyz[3 * b + 2] - xyz[3 * a + 2];
        return Math.sqrt(dx * dx + dy * dy + dz * dz);
    }

    static double[] point(double[] xyz, int v) {
        return new double[] {xyz[3 * v], xyz[3 * v + 1], xyz[3 * v + 2]};
    }
}
