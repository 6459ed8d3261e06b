package layupmold.geometry.drape;

/**
 * Lays one thread straight over the sheet, link by link. A link is a straightest geodesic; where the surface is too rough
 * for that, and its ends come out nearer to each other than a link, it follows an upright section instead.
 */
final class ThreadWalk {

    /** A geodesic whose ends are this much nearer over the sheet than it is long has lost its way. */
    private static final double ASTRAY = 0.03;

    private final double[] normals;
    private final double step;
    private final GeodesicWalk geodesic;
    /** Null where links are straight, as in a sketch. */
    private final ArcLength arcs;
    private final SectionWalk section;
    private final double[] from = new double[3];
    private final double[] heading = new double[3];
    private final double[] plane = new double[3];

    /** Where the thread has come to. */
    final double[] point = new double[3];
    int triangle;
    boolean offSheet;

    ThreadWalk(ToolSheet sheet, double stepMm, boolean overTheSheet) {
        this.normals = sheet.normals();
        this.step = stepMm;
        this.geodesic = new GeodesicWalk(sheet, overTheSheet);
        this.arcs = overTheSheet ? new ArcLength(sheet) : null;
        this.section = new SectionWalk(sheet);
    }

    /** Stands at {@code p} in triangle {@code t}, looking along {@code towards} as projected into its plane. */
    boolean start(int t, double[] p, double[] towards) {
        System.arraycopy(p, 0, point, 0, 3);
        triangle = t;
        offSheet = false;
        return geodesic.start(t, p, towards);
    }

    /** Stands at {@code p} in triangle {@code t} at the end of a link that began at {@code q} in triangle {@code s}. */
    boolean startFrom(int s, double[] q, int t, double[] p) {
        for (int k = 0; k < 3; k++) {
            heading[k] = p[k] - q[k];
        }
        if (arcs != null) {
            arcs.between(t, p, s, q);
            for (int k = 0; k < 3; k++) {
                heading[k] = -arcs.leaving[k];
            }
        }
        return start(t, p, heading);
    }

    /** One link on; false if there is no way. */
    boolean step() {
        System.arraycopy(point, 0, from, 0, 3);
        System.arraycopy(geodesic.dir, 0, heading, 0, 3);
        int t = triangle;
        boolean walked = geodesic.step(step);
        if (walked && (arcs == null || geodesic.offSheet
                || arcs.between(t, from, geodesic.triangle, geodesic.point) > (1 - ASTRAY) * step)) {
            System.arraycopy(geodesic.point, 0, point, 0, 3);
            triangle = geodesic.triangle;
            offSheet = geodesic.offSheet;
            return true;
        }
        return arcs != null && alongSection(t);
    }

    private boolean alongSection(int t) {
        int n = 3 * t;
        plane[0] = heading[1] * normals[n + 2] - heading[2] * normals[n + 1];
        plane[1] = heading[2] * normals[n] - heading[0] * normals[n + 2];
        plane[2] = heading[0] * normals[n + 1] - heading[1] * normals[n];
        double length = Math.sqrt(plane[0] * plane[0] + plane[1] * plane[1] + plane[2] * plane[2]);
        if (length < 1e-9) {
            return false;
        }
        for (int k = 0; k < 3; k++) {
            plane[k] /= length;
        }
        if (!section.walk(plane, t, from, heading, 6 * step,
                (px, py, pz, qx, qy, qz) -> SectionWalk.leavesSphere(px, py, pz, qx, qy, qz, from, step))) {
            return false;
        }
        System.arraycopy(section.point, 0, point, 0, 3);
        triangle = section.triangle;
        offSheet = section.offSheet;
        return offSheet || startFrom(t, from.clone(), triangle, point.clone());
    }
}
