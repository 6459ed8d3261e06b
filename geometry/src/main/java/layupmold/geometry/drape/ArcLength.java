package layupmold.geometry.drape;

/**
 * How far it is over the sheet between two points on it that are near each other: straight over the triangles between
 * them, laid flat. Those are the triangles that the plane through both points and the mean of the normals there cuts.
 */
final class ArcLength {

    /** How far from the wanted end a walk may stop, as a share of the chord, before it counts as gone astray. */
    private static final double ASTRAY = 0.02;
    /** Longest arc over its chord that is still one step of cloth. */
    private static final double LONGEST = 4;

    private final double[] normals;
    private final SectionWalk walk;
    private final StripUnfolding strip;
    private final double[] towards = new double[3];
    private final double[] plane = new double[3];
    private double along;

    /** Unit direction in which the way last measured leaves its first point, in the plane of that triangle. */
    final double[] leaving = new double[3];

    ArcLength(ToolSheet sheet) {
        this.normals = sheet.normals();
        this.walk = new SectionWalk(sheet);
        this.strip = new StripUnfolding(sheet);
        walk.crossings = strip;
    }

    /**
     * @param s triangle that {@code p} lies in
     * @param t triangle that {@code q} lies in, or on whose flat continuation beyond the sheet's edge it lies
     * @return at least the chord; the chord itself where no way over the sheet was found
     */
    double between(int s, double[] p, int t, double[] q) {
        double chord = 0;
        for (int k = 0; k < 3; k++) {
            towards[k] = q[k] - p[k];
            chord += towards[k] * towards[k];
        }
        chord = Math.sqrt(chord);
        if (chord == 0) {
            return 0;
        }
        for (int k = 0; k < 3; k++) {
            towards[k] /= chord;
        }
        if (s != t && reaches(s, p, t, q, chord) && !strip.isOneTriangle()) {
            double arc = strip.distanceTo(q);
            strip.leaving(normals, 3 * s, leaving);
            return Math.max(chord, arc);
        }
        leaveStraight(s);
        return chord;
    }

    private boolean reaches(int s, double[] p, int t, double[] q, double chord) {
        double nx = normals[3 * s] + normals[3 * t];
        double ny = normals[3 * s + 1] + normals[3 * t + 1];
        double nz = normals[3 * s + 2] + normals[3 * t + 2];
        plane[0] = towards[1] * nz - towards[2] * ny;
        plane[1] = towards[2] * nx - towards[0] * nz;
        plane[2] = towards[0] * ny - towards[1] * nx;
        double length = Math.sqrt(plane[0] * plane[0] + plane[1] * plane[1] + plane[2] * plane[2]);
        if (length < 1e-6) {
            return false;
        }
        for (int k = 0; k < 3; k++) {
            plane[k] /= length;
        }
        along = q[0] * towards[0] + q[1] * towards[1] + q[2] * towards[2];
        strip.begin(p);
        return walk.walk(plane, s, p, towards, LONGEST * chord, this::passesEnd)
                && distance(walk.point, q) < ASTRAY * chord;
    }

    private double passesEnd(double px, double py, double pz, double qx, double qy, double qz) {
        double p = px * towards[0] + py * towards[1] + pz * towards[2] - along;
        double q = qx * towards[0] + qy * towards[1] + qz * towards[2] - along;
        return p >= 0 ? 0 : q >= 0 ? p / (p - q) : -1;
    }

    /** Along the chord, as far as it lies in the plane of triangle {@code s}. */
    private void leaveStraight(int s) {
        double off = 0;
        for (int k = 0; k < 3; k++) {
            off += towards[k] * normals[3 * s + k];
        }
        double length = Math.sqrt(Math.max(1e-12, 1 - off * off));
        for (int k = 0; k < 3; k++) {
            leaving[k] = (towards[k] - off * normals[3 * s + k]) / length;
        }
    }

    private static double distance(double[] u, double[] v) {
        return Math.sqrt((u[0] - v[0]) * (u[0] - v[0]) + (u[1] - v[1]) * (u[1] - v[1])
                + (u[2] - v[2]) * (u[2] - v[2]));
    }
}
