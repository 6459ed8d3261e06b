package layupmold.geometry.drape;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import layupmold.geometry.bvh.NearestPoint;
import org.joml.Vector3d;

/**
 * Looks for the start point from which the cloth shears least: coarse nets from the middle of the sheet and from a grid
 * of nine points over it, the best kept; then other warp directions from there, to say what they would gain. Bounded:
 * at most sixteen coarse nets of about {@value #COARSE_LINKS} links across.
 */
final class StartSearch {

    private static final double INSIDE = 1e-6;
    private static final int COARSE_LINKS = 24;
    private static final double[] TURNS = {-45, -30, -15, 15, 30, 45};

    /** A start on the sheet. */
    record Start(int triangle, Vector3d point) {
    }

    /**
     * A start with its merit; less is better.
     *
     * @param distortion what shear alone costs
     * @param score distortion and what of the sheet stays bare
     * @param amissMm2 area that locks or stays bare
     */
    record Scored(Start start, double warpAngleDeg, double distortion, double score, double amissMm2) {
    }

    private final ToolSheet sheet;
    private final double lockingDeg;
    private final double step;

    StartSearch(ToolSheet sheet, double lockingDeg) {
        this.sheet = sheet;
        this.lockingDeg = lockingDeg;
        this.step = Math.sqrt(sheet.areaMm2()) / COARSE_LINKS;
    }

    /** The point of the sheet nearest to {@code point}, a hair inside its triangle so that no walk starts in a corner. */
    static Start at(ToolSheet sheet, Vector3d point) {
        NearestPoint nearest = new NearestPoint();
        sheet.bvh().nearest(point.x, point.y, point.z, Double.POSITIVE_INFINITY, nearest);
        Vector3d on = new Vector3d(nearest.x, nearest.y, nearest.z);
        return new Start(nearest.triangle, on.lerp(sheet.mesh().centroid(nearest.triangle), INSIDE));
    }

    /** Starts for a given warp direction, the best first. */
    List<Scored> starts(double warpAngleDeg) {
        List<Start> starts = candidates();
        return IntStream.range(0, starts.size()).parallel().mapToObj(k -> score(starts.get(k), warpAngleDeg))
                .sorted(Comparator.comparingDouble(Scored::score)).toList();
    }

    Scored fromTheMiddle(double warpAngleDeg) {
        return score(at(sheet, middle()), warpAngleDeg);
    }

    /** Best warp direction from a given start, the given one included. */
    Scored bestAngle(Scored from) {
        List<Scored> all = new ArrayList<>(List.of(from));
        all.addAll(IntStream.range(0, TURNS.length).parallel()
                .mapToObj(k -> score(from.start(), from.warpAngleDeg() + TURNS[k])).toList());
        return best(all);
    }

    private static Scored best(List<Scored> all) {
        Scored best = all.get(0);
        for (Scored s : all) {
            if (s.score() < best.score() - 1e-9) {
                best = s;
            }
        }
        return best;
    }

    private List<Start> candidates() {
        double[] box = sheet.mesh().bounds();
        List<Start> starts = new ArrayList<>();
        Vector3d middle = middle();
        add(starts, middle);
        for (int i = 1; i <= 3; i++) {
            for (int j = 1; j <= 3; j++) {
                add(starts, new Vector3d(box[0] + i * (box[3] - box[0]) / 4, box[1] + j * (box[4] - box[1]) / 4,
                        middle.z));
            }
        }
        return starts;
    }

    private void add(List<Start> starts, Vector3d near) {
        Start start = at(sheet, near);
        if (starts.stream().noneMatch(s -> s.triangle() == start.triangle())) {
            starts.add(start);
        }
    }

    private Vector3d middle() {
        Vector3d sum = new Vector3d();
        double area = 0;
        for (int t = 0; t < sheet.mesh().triangleCount(); t++) {
            double a = sheet.mesh().areaNormal(t).length();
            sum.add(sheet.mesh().centroid(t).mul(a));
            area += a;
        }
        return sum.div(area);
    }

    Scored score(Start start, double warpAngleDeg) {
        DrapeNet net = NetGrowth.sketch(sheet, start.triangle(), start.point(), planDirection(warpAngleDeg), step,
                40 * COARSE_LINKS * COARSE_LINKS);
        int cells = 0;
        int locked = 0;
        double covered = 0;
        double lockedMm2 = 0;
        double squares = 0;
        for (int node = 0; node < net.nodeCount(); node++) {
            int i = net.i(node);
            int j = net.j(node);
            if (net.isOnSheet(i, j) && net.isOnSheet(i + 1, j) && net.isOnSheet(i, j + 1)
                    && net.isOnSheet(i + 1, j + 1)) {
                double shear = net.cellShearDeg(i, j);
                cells++;
                double area = step * step * Math.cos(Math.toRadians(shear));
                locked += Math.abs(shear) > lockingDeg ? 1 : 0;
                lockedMm2 += Math.abs(shear) > lockingDeg ? area : 0;
                covered += area;
                squares += shear * shear;
            }
        }
        double uncovered = Math.max(0, 1 - covered / sheet.areaMm2());
        double distortion = cells == 0 ? 100 : 10.0 * locked / cells + Math.sqrt(squares / cells) / 90;
        return new Scored(start, warpAngleDeg, distortion, distortion + 2 * uncovered,
                lockedMm2 + uncovered * sheet.areaMm2());
    }

    static Vector3d planDirection(double angleDeg) {
        return new Vector3d(Math.cos(Math.toRadians(angleDeg)), Math.sin(Math.toRadians(angleDeg)), 0);
    }
}
