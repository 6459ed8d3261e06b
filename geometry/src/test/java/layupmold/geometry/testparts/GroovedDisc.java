package layupmold.geometry.testparts;

import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.shape.ShellRegion;

/**
 * A disc with a full round as its rim, and radial grooves that run out over it. Past the round's outermost point a
 * groove fades out, until it is gone 30 degrees before the inner wall.
 *
 * @param radiusMm to where the round begins
 * @param flats number of flats of the half circle
 * @param upright whether grooves have upright sides; if not, sections like a V
 * @param halfWidthDeg of grooves, a whole number
 * @param at whole degrees at which grooves lie
 */
public record GroovedDisc(double radiusMm, double wallMm, double depthMm, int flats, boolean upright, int halfWidthDeg,
        int... at) {

    private static final int AROUND = 360;
    private static final double GONE_DEG = 150;
    private static final double FADING_DEG = 60;
    private static final double GROOVES_FROM = 0.4;

    /** A section through the axis. */
    private record Meridian(double angle, double depth) {
    }

    public TestPart part() {
        List<Meridian> meridians = meridians();
        Patches patches = new Patches();
        for (int k = 0; k < meridians.size(); k++) {
            join(patches, meridians.get(k), meridians.get((k + 1) % meridians.size()));
        }
        return patches.part("grooved disc", wallMm,
                new double[] {2 * AROUND * Math.sin(Math.PI / AROUND) * (radiusMm + wallMm / 2)});
    }

    private List<Meridian> meridians() {
        List<Meridian> meridians = new ArrayList<>();
        for (int k = 0; k < AROUND; k++) {
            double angle = 2 * Math.PI * k / AROUND;
            double inside = 0;
            for (int middle : at) {
                inside = Math.max(inside, 1 - (double) Math.abs(k - middle) / halfWidthDeg);
            }
            boolean opens = isAtSide(k, -halfWidthDeg);
            boolean closes = isAtSide(k, halfWidthDeg);
            if (upright && (opens || closes)) {
                meridians.add(new Meridian(angle, opens ? 0 : depthMm));
                meridians.add(new Meridian(angle, opens ? depthMm : 0));
            } else {
                meridians.add(new Meridian(angle, upright ? inside > 0 ? depthMm : 0 : inside * depthMm));
            }
        }
        return meridians;
    }

    private boolean isAtSide(int k, int fromMiddle) {
        for (int middle : at) {
            if (k == middle + fromMiddle) {
                return true;
            }
        }
        return false;
    }

    private void join(Patches patches, Meridian before, Meridian after) {
        double[] p = points(before);
        double[] q = points(after);
        for (int i = 0; i + 3 < p.length; i += 3) {
            patches.quad(p[i], p[i + 1], p[i + 2], p[i + 3], p[i + 4], p[i + 5],
                    q[i + 3], q[i + 4], q[i + 5], q[i], q[i + 1], q[i + 2], region(i / 3));
        }
    }

    /** From the middle of the outer wall over the round to the middle of the inner. */
    private double[] points(Meridian meridian) {
        double[] points = new double[3 * (flats + 5)];
        add(points, 0, meridian.angle, 0, 0);
        add(points, 1, meridian.angle, GROOVES_FROM * radiusMm, 0);
        add(points, 2, meridian.angle, GROOVES_FROM * radiusMm, -meridian.depth);
        for (int i = 0; i <= flats; i++) {
            double deg = 180.0 * i / flats;
            double r = wallMm / 2 - meridian.depth * Math.max(0, Math.min(1, (GONE_DEG - deg) / FADING_DEG));
            add(points, 3 + i, meridian.angle, radiusMm + r * Math.sin(Math.toRadians(deg)),
                    -wallMm / 2 + r * Math.cos(Math.toRadians(deg)));
        }
        add(points, flats + 4, meridian.angle, 0, -wallMm);
        return points;
    }

    private static void add(double[] points, int n, double angle, double radius, double z) {
        points[3 * n] = radius * Math.cos(angle);
        points[3 * n + 1] = radius * Math.sin(angle);
        points[3 * n + 2] = z;
    }

    private ShellRegion region(int i) {
        if (i < 3) {
            return ShellRegion.OUTER;
        }
        return i == flats + 3 ? ShellRegion.INNER
                : i - 3 < flats / 2 ? ShellRegion.RIM_OUTER_HALF : ShellRegion.RIM_INNER_HALF;
    }
}
