package layupmold.samples.heron;

import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.shape.PlanarDomain;
import layupmold.geometry.shape.PointSampler;
import layupmold.geometry.shape.ScalarField;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.index.strtree.STRtree;

/**
 * Crisp grooves and ridges on the outer wall: each a line in the domain with a V section. The rows of points along both
 * edges and the middle make the tessellation follow the V exactly. Between the lines the surface swells a little, as
 * feathers do.
 */
final class DetailLines {

    private static final double STATION_MM = 2.3;
    /** Where the row beside a line runs, in half widths. */
    private static final double OUTER_ROW = 2.3;
    private static final double END_FADE_MM = 4;
    private static final double REACH_MM = 9;
    private static final double LOOP_FADE_MM = 5;

    /**
     * @param path points about evenly spaced along the line
     * @param halfWidthMm from the middle to the edge
     * @param depthMm depth of the V; negative for a ridge
     */
    private record Line(Coordinate[] path, double[] upTo, double halfWidthMm, double depthMm) {
    }

    private record Segment(Line line, int index) {
    }

    private final List<Line> lines = new ArrayList<>();
    private final STRtree tree = new STRtree();
    private final double pillowMm;

    /** @param pillowMm how much the surface swells between lines */
    DetailLines(double pillowMm) {
        this.pillowMm = pillowMm;
    }

    /** Adds a groove (or, with negative depth, a ridge) along {@code u, v, …}. */
    void add(double[] path, double widthMm, double depthMm) {
        List<Coordinate> points = resampled(path);
        if (points.size() < 4) {
            return;
        }
        double[] upTo = new double[points.size()];
        for (int i = 1; i < upTo.length; i++) {
            upTo[i] = upTo[i - 1] + points.get(i).distance(points.get(i - 1));
        }
        Line line = new Line(points.toArray(Coordinate[]::new), upTo, widthMm / 2, depthMm);
        lines.add(line);
        for (int i = 0; i + 1 < upTo.length; i++) {
            tree.insert(new Envelope(line.path[i], line.path[i + 1]), new Segment(line, i));
        }
    }

    /** As {@link #add}, leaving out what lies where {@code allowed} is not positive. */
    void addWhere(double[] path, double widthMm, double depthMm, ScalarField allowed) {
        List<Coordinate> points = resampled(path);
        List<Coordinate> run = new ArrayList<>();
        for (Coordinate p : points) {
            if (allowed.at(p.x, p.y) > 0) {
                run.add(p);
            } else {
                addRun(run, widthMm, depthMm);
            }
        }
        addRun(run, widthMm, depthMm);
    }

    private void addRun(List<Coordinate> run, double widthMm, double depthMm) {
        if (run.size() > 4) {
            double[] path = new double[2 * run.size()];
            for (int i = 0; i < run.size(); i++) {
                path[2 * i] = run.get(i).x;
                path[2 * i + 1] = run.get(i).y;
            }
            add(path, widthMm, depthMm);
        }
        run.clear();
    }

    private static List<Coordinate> resampled(double[] path) {
        double[] upTo = new double[path.length / 2];
        for (int i = 1; i < upTo.length; i++) {
            upTo[i] = upTo[i - 1] + StrictMath.hypot(path[2 * i] - path[2 * i - 2], path[2 * i + 1] - path[2 * i - 1]);
        }
        double length = upTo[upTo.length - 1];
        int count = Math.max(1, (int) Math.round(length / STATION_MM));
        List<Coordinate> points = new ArrayList<>();
        int segment = 0;
        for (int k = 0; k <= count; k++) {
            double s = length * k / count;
            while (segment + 2 < upTo.length && upTo[segment + 1] < s) {
                segment++;
            }
            double t = Math.min(1, (s - upTo[segment]) / Math.max(1e-12, upTo[segment + 1] - upTo[segment]));
            points.add(new Coordinate(path[2 * segment] + t * (path[2 * segment + 2] - path[2 * segment]),
                    path[2 * segment + 1] + t * (path[2 * segment + 3] - path[2 * segment + 1])));
        }
        return points;
    }

    /** Displacement of the outer wall along its normal, fading out at the loops. */
    ScalarField relief(PlanarDomain domain) {
        return (u, v) -> {
            double cut = 0;
            double nearest = REACH_MM;
            for (Object item : tree.query(around(u, v))) {
                Segment segment = (Segment) item;
                Line line = segment.line;
                double[] at = project(segment, u, v);
                double edge = Math.max(0, at[0] - line.halfWidthMm);
                nearest = Math.min(nearest, edge);
                double end = Math.min(at[1], line.upTo[line.upTo.length - 1] - at[1]) / END_FADE_MM;
                double depth = line.depthMm * Math.min(1, end) * Math.max(0, 1 - at[0] / line.halfWidthMm);
                cut = Math.abs(depth) > Math.abs(cut) ? depth : cut;
            }
            double swell = pillowMm * Sculpt.smoothStep(0, REACH_MM, nearest);
            return (swell - cut) * Sculpt.smoothStep(1, LOOP_FADE_MM, domain.distanceToLoops(u, v));
        };
    }

    /**
     * Edge length for the surface beside the lines, growing away from them; unbounded on the lines themselves, whose
     * points all come from {@link #sample}.
     */
    double sizeBeside(double u, double v) {
        double nearest = REACH_MM;
        for (Object item : tree.query(around(u, v))) {
            Segment segment = (Segment) item;
            double distance = project(segment, u, v)[0];
            if (distance < OUTER_ROW * segment.line.halfWidthMm) {
                return Double.MAX_VALUE;
            }
            nearest = Math.min(nearest, distance - segment.line.halfWidthMm);
        }
        return 1.3 + 0.75 * nearest;
    }

    /** Rows of points along every line: both edges, the middle, and one row outside for an even transition. */
    void sample(PointSampler sampler) {
        for (double share : new double[] {0, -1, 1, -OUTER_ROW, OUTER_ROW}) {
            for (Line line : lines) {
                double clearance = Math.abs(share) > 1 ? 0.9 * line.halfWidthMm : 0.4 * line.halfWidthMm;
                for (int i = 0; i < line.path.length; i++) {
                    Coordinate before = line.path[Math.max(0, i - 1)];
                    Coordinate after = line.path[Math.min(line.path.length - 1, i + 1)];
                    double length = after.distance(before);
                    double aside = share * line.halfWidthMm / length;
                    sampler.add(line.path[i].x - (after.y - before.y) * aside,
                            line.path[i].y + (after.x - before.x) * aside, clearance);
                }
            }
        }
    }

    private static Envelope around(double u, double v) {
        return new Envelope(u - REACH_MM - 1, u + REACH_MM + 1, v - REACH_MM - 1, v + REACH_MM + 1);
    }

    /** Distance from the segment and station along its line. */
    private static double[] project(Segment segment, double u, double v) {
        Coordinate a = segment.line.path[segment.index];
        Coordinate b = segment.line.path[segment.index + 1];
        double du = b.x - a.x;
        double dv = b.y - a.y;
        double square = du * du + dv * dv;
        double t = Math.max(0, Math.min(1, ((u - a.x) * du + (v - a.y) * dv) / square));
        double distance = StrictMath.hypot(u - a.x - t * du, v - a.y - t * dv);
        return new double[] {distance, segment.line.upTo[segment.index] + t * Math.sqrt(square)};
    }
}
