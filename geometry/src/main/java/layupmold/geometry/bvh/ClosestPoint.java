package layupmold.geometry.bvh;

/** Closest point on a triangle: Ericson, "Real-Time Collision Detection", 2005, section 5.1.5. */
public final class ClosestPoint {

    private ClosestPoint() {
    }

    /** Lowers {@code answer} to triangle {@code t} (corners given by the index of their x) if it is nearer. */
    public static void onTriangle(double[] xyz, int a, int b, int c, double px, double py, double pz, int t,
            NearestPoint answer) {
        double abx = xyz[b] - xyz[a];
        double aby = xyz[b + 1] - xyz[a + 1];
        double abz = xyz[b + 2] - xyz[a + 2];
        double acx = xyz[c] - xyz[a];
        double acy = xyz[c + 1] - xyz[a + 1];
        double acz = xyz[c + 2] - xyz[a + 2];
        double apx = px - xyz[a];
        double apy = py - xyz[a + 1];
        double apz = pz - xyz[a + 2];
        double d1 = abx * apx + aby * apy + abz * apz;
        double d2 = acx * apx + acy * apy + acz * apz;
        double v = 0;
        double w = 0;
        if (d1 > 0 || d2 > 0) {
            double bpx = px - xyz[b];
            double bpy = py - xyz[b + 1];
            double bpz = pz - xyz[b + 2];
            double d3 = abx * bpx + aby * bpy + abz * bpz;
            double d4 = acx * bpx + acy * bpy + acz * bpz;
            double cpx = px - xyz[c];
            double cpy = py - xyz[c + 1];
            double cpz = pz - xyz[c + 2];
            double d5 = abx * cpx + aby * cpy + abz * cpz;
            double d6 = acx * cpx + acy * cpy + acz * cpz;
            double vc = d1 * d4 - d3 * d2;
            double vb = d5 * d2 - d1 * d6;
            double va = d3 * d6 - d5 * d4;
            if (d3 >= 0 && d4 <= d3) {
                v = 1;
            } else if (vc <= 0 && d1 >= 0 && d3 <= 0) {
                v = d1 / (d1 - d3);
            } else if (d6 >= 0 && d5 <= d6) {
                w = 1;
            } else if (vb <= 0 && d2 >= 0 && d6 <= 0) {
                w = d2 / (d2 - d6);
            } else if (va <= 0 && d4 - d3 >= 0 && d5 - d6 >= 0) {
                w = (d4 - d3) / ((d4 - d3) + (d5 - d6));
                v = 1 - w;
            } else {
                double sum = va + vb + vc;
                if (sum != 0) {
                    v = vb / sum;
                    w = vc / sum;
                }
            }
        }
        double x = xyz[a] + abx * v + acx * w;
        double y = xyz[a + 1] + aby * v + acy * w;
        double z = xyz[a + 2] + abz * v + acz * w;
        double dx = px - x;
        double dy = py - y;
        double dz = pz - z;
        double d = dx * dx + dy * dy + dz * dz;
        if (d < answer.distanceSquared || d == answer.distanceSquared && (answer.triangle < 0 || t < answer.triangle)) {
            answer.distanceSquared = d;
            answer.triangle = t;
            answer.x = x;
            answer.y = y;
            answer.z = z;
        }
    }
}
