package layupmold.geometry.body;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.recipe.NotchSpec;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.Polygon;

/**
 * The border's outline with pry notches laid out on it, evenly along its length. Of several ways to place them the one
 * that fits the most, where the outline is straightest, is taken; O(count · corners).
 *
 * @param xy the outline's corners and the notches' ends, counter-clockwise
 * @param notches laid out, by their place on the outline
 */
record NotchedOutline(double[] xy, List<Notch> notches) {

    private static final int PHASES = 24;
    /** Notch ends this near to a corner of the outline move there. */
    private static final double SNAP_MM = 0.01;
    private static final double SLACK_MM = 0.01;
    /** Differences in straightness below this are rounding. */
    private static final double STRAIGHT_MM = 1e-4;
    /** Of the depth that must be left everywhere where the outline bends. */
    private static final double LEAST_DEPTH = 0.8;

    /**
     * A slot: its open side runs along the outline, and two more corners lie inwards.
     *
     * @param start corner of the outline where it begins
     * @param end where it ends, seen counter-clockwise
     * @param inner x and y of the corner behind the start, then of the one behind the end
     * @param plan what it takes of the border
     */
    record Notch(int start, int end, double[] inner, Polygon plan) {
    }

    private record Slot(double from, double to, double[] inner, Polygon plan, double bend) {
    }

    /** The outline with no notch. */
    static NotchedOutline plain(double[] outline) {
        return new NotchedOutline(outline, List.of());
    }

    /**
     * @param outline x-y corners, counter-clockwise
     * @param keepOut what notches must be clear of
     * @param clearanceMm by how much
     */
    static NotchedOutline of(
            double[] outline, NotchSpec spec, Geometry keepOut, double clearanceMm, CoordinateLattice lattice) {
        if (spec.count() == 0) {
            return plain(outline);
        }
        return new Layout(outline, spec, keepOut, clearanceMm, lattice).best();
    }

    /** One layout in the making: positions are lengths along the outline. */
    private static final class Layout {
        private final TreeMap<Double, double[]> corners = new TreeMap<>();
        private final double length;
        private final NotchSpec spec;
        private final Geometry keepOut;
        private final double clearanceMm;
        private final CoordinateLattice lattice;
        private final Geometry inside;
        private final LineString ring;

        Layout(double[] outline, NotchSpec spec, Geometry keepOut, double clearanceMm, CoordinateLattice lattice) {
            this.spec = spec;
            this.keepOut = keepOut;
            this.clearanceMm = clearanceMm;
            this.lattice = lattice;
            double at = 0;
            int n = outline.length / 2;
            for (int i = 0; i < n; i++) {
                int k = (i + 1) % n;
                corners.put(at, new double[] {outline[2 * i], outline[2 * i + 1]});
                at += Math.hypot(outline[2 * k] - outline[2 * i], outline[2 * k + 1] - outline[2 * i + 1]);
            }
            length = at;
            Polygon area = PlanArea.polygon(outline);
            ring = area.getExteriorRing();
            inside = PlanArea.grow(area, SLACK_MM);
        }

        NotchedOutline best() {
            List<Slot> best = List.of();
            double bestBend = Double.POSITIVE_INFINITY;
            for (int phase = 0; phase < PHASES; phase++) {
                List<Slot> slots = slots((double) phase / PHASES);
                double bend = slots.stream().mapToDouble(Slot::bend).sum();
                if (slots.size() > best.size() || slots.size() == best.size() && bend < bestBend - STRAIGHT_MM) {
                    best = slots;
                    bestBend = bend;
                }
            }
            return cut(best);
        }

        private List<Slot> slots(double phase) {
            List<Slot> slots = new ArrayList<>();
            for (int i = 0; i < spec.count() && 2 * spec.count() * spec.widthMm() < length; i++) {
                double middle = (i + phase) / spec.count() * length;
                Slot slot = slot(snapped(middle - spec.widthMm() / 2), snapped(middle + spec.widthMm() / 2));
                if (slot != null) {
                    slots.add(slot);
                }
            }
            return slots;
        }

        /** On the outline, at a corner if one is near. */
        private double snapped(double position) {
            double at = (position % length + length) % length;
            Double below = corners.floorKey(at);
            Double above = corners.ceilingKey(at);
            if (at - below < SNAP_MM) {
                return below;
            }
            if (above != null) {
                return above - at < SNAP_MM ? above : at;
            }
            return length - at < SNAP_MM ? 0 : at;
        }

        private double[] point(double at) {
            double[] corner = corners.get(at);
            if (corner != null) {
                return corner;
            }
            Map.Entry<Double, double[]> a = corners.floorEntry(at);
            Map.Entry<Double, double[]> b = corners.higherEntry(at);
            double[] end = b == null ? corners.firstEntry().getValue() : b.getValue();
            double share = (at - a.getKey()) / ((b == null ? length : b.getKey()) - a.getKey());
            return new double[] {lattice.round(a.getValue()[0] + share * (end[0] - a.getValue()[0])),
                lattice.round(a.getValue()[1] + share * (end[1] - a.getValue()[1]))};
        }

        /** Corners strictly between two positions, counter-clockwise. */
        private List<double[]> between(double from, double to) {
            if (from < to) {
                return new ArrayList<>(corners.subMap(from, false, to, false).values());
            }
            List<double[]> all = new ArrayList<>(corners.tailMap(from, false).values());
            all.addAll(corners.headMap(to, false).values());
            return all;
        }

        /** Null if there is no room. */
        private Slot slot(double from, double to) {
            double[] a = point(from);
            double[] b = point(to);
            double chord = Math.hypot(b[0] - a[0], b[1] - a[1]);
            double nx = -(b[1] - a[1]) / chord * spec.depthMm();
            double ny = (b[0] - a[0]) / chord * spec.depthMm();
            double[] inner = lattice.round(new double[] {a[0] + nx, a[1] + ny, b[0] + nx, b[1] + ny});
            List<double[]> around = new ArrayList<>(List.of(a));
            around.addAll(between(from, to));
            around.addAll(List.of(b, new double[] {inner[2], inner[3]}, new double[] {inner[0], inner[1]}));
            Polygon plan = PlanArea.polygon(around.stream().flatMapToDouble(Arrays::stream).toArray());
            LineString back = PlanArea.PLANE.createLineString(new Coordinate[] {
                new Coordinate(inner[0], inner[1]), new Coordinate(inner[2], inner[3])});
            boolean fits = chord > spec.widthMm() / 2 && plan.isValid() && inside.covers(plan)
                    && back.distance(ring) > LEAST_DEPTH * spec.depthMm() && keepOut.distance(plan) > clearanceMm;
            return fits ? new Slot(from, to, inner, plan, spec.widthMm() - chord) : null;
        }

        private NotchedOutline cut(List<Slot> slots) {
            TreeMap<Double, double[]> all = new TreeMap<>(corners);
            for (Slot slot : slots) {
                all.put(slot.from(), point(slot.from()));
                all.put(slot.to(), point(slot.to()));
            }
            double[] xy = all.values().stream().flatMapToDouble(Arrays::stream).toArray();
            List<Double> positions = new ArrayList<>(all.keySet());
            List<Notch> notches = slots.stream().map(slot -> new Notch(positions.indexOf(slot.from()),
                    positions.indexOf(slot.to()), slot.inner(), slot.plan())).toList();
            return new NotchedOutline(xy, notches);
        }
    }
}
