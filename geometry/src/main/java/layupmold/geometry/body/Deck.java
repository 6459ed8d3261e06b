package layupmold.geometry.body;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.LabelledMeshBuilder;
import layupmold.geometry.offset.OffsetSurface;

/** A mold's upper side with notches and holes cut into its border, ready to be closed below. */
final class Deck {

    final LabelledMeshBuilder solid;
    /** The outline's corners, counter-clockwise, the border on the left. */
    final double[] outline;
    /** Upper rings of the holes, counter-clockwise. */
    final List<int[]> holes = new ArrayList<>();
    /** For each corner of the outline its vertices so far, from the top down; two at a notch's ends. */
    private final int[][] columns;
    /** Whether the stretch from a corner to the next is a notch's open side. */
    private final boolean[] open;

    private Deck(LabelledMeshBuilder solid, double[] outline) {
        this.solid = solid;
        this.outline = outline;
        this.columns = new int[outline.length / 2][];
        this.open = new boolean[columns.length];
    }

    /** The surface as it is. */
    static Deck uncut(OffsetSurface surface) {
        Deck deck = new Deck(new LabelledMeshBuilder(surface.mesh(), surface.regions()), outline(surface));
        for (int i = 0; i < deck.columns.length; i++) {
            deck.columns[i] = new int[] {surface.outline()[i]};
        }
        return deck;
    }

    /** The surface's outline as x-y corners. */
    static double[] outline(OffsetSurface surface) {
        int[] ring = surface.outline();
        double[] xy = new double[2 * ring.length];
        for (int i = 0; i < ring.length; i++) {
            xy[2 * i] = surface.mesh().xyz()[3 * ring[i]];
            xy[2 * i + 1] = surface.mesh().xyz()[3 * ring[i] + 1];
        }
        return xy;
    }

    /**
     * @param above the surface without its border
     * @param holes x-y corners of each hole, counter-clockwise
     * @param notchMm height of the notches
     */
    static Deck cut(LevelBorder above, NotchedOutline outline, List<double[]> holes, double notchMm,
            CoordinateLattice lattice) {
        Deck deck = new Deck(new LabelledMeshBuilder(above.rest(), above.regions()), outline.xy());
        for (double[] hole : holes) {
            deck.holes.add(PlanFill.ring(deck.solid, hole, above.z()));
        }
        deck.addColumns(outline, above.z(), lattice.round(above.z() - notchMm));
        int[] ring = deck.borderRing(outline, above.z(), lattice.round(above.z() - notchMm));
        List<int[]> rings = new ArrayList<>(above.loops());
        rings.add(ring);
        rings.addAll(deck.holes);
        PlanFill.fill(deck.solid, rings, true, MoldRegion.BORDER);
        return deck;
    }

    private void addColumns(NotchedOutline outline, double top, double floor) {
        int n = columns.length;
        boolean[] below = new boolean[n];
        boolean[] above = new boolean[n];
        Arrays.fill(above, true);
        for (NotchedOutline.Notch notch : outline.notches()) {
            below[notch.end()] = true;
            for (int i = notch.start(); i != notch.end(); i = (i + 1) % n) {
                open[i] = true;
                below[i] = true;
                above[i] = i == notch.start();
            }
        }
        for (int i = 0; i < n; i++) {
            int[] column = new int[(above[i] ? 1 : 0) + (below[i] ? 1 : 0)];
            if (above[i]) {
                column[0] = solid.addVertex(xy(i, 0), xy(i, 1), top);
            }
            if (below[i]) {
                column[column.length - 1] = solid.addVertex(xy(i, 0), xy(i, 1), floor);
            }
            columns[i] = column;
        }
    }

    private double xy(int corner, int axis) {
        return outline[2 * corner + axis];
    }

    /** The border's outer ring, around the notches; makes their floors and walls on the way. */
    private int[] borderRing(NotchedOutline outline, double top, double floor) {
        int n = columns.length;
        NotchedOutline.Notch[] startingAt = new NotchedOutline.Notch[n];
        for (NotchedOutline.Notch notch : outline.notches()) {
            startingAt[notch.start()] = notch;
        }
        int first = outline.notches().isEmpty() ? 0 : outline.notches().get(0).start();
        List<Integer> ring = new ArrayList<>();
        for (int walked = 0; walked < n;) {
            int i = (first + walked) % n;
            ring.add(columns[i][0]);
            if (startingAt[i] == null) {
                walked++;
                continue;
            }
            NotchedOutline.Notch notch = startingAt[i];
            int[] upper = PlanFill.ring(solid, notch.inner(), top);
            ring.add(upper[0]);
            ring.add(upper[1]);
            sink(notch, upper, PlanFill.ring(solid, notch.inner(), floor));
            walked += (notch.end() - notch.start() + n) % n;
        }
        return ring.stream().mapToInt(v -> v).toArray();
    }

    private void sink(NotchedOutline.Notch notch, int[] upper, int[] lower) {
        int n = columns.length;
        List<Integer> floor = new ArrayList<>();
        for (int i = notch.start(); i != notch.end(); i = (i + 1) % n) {
            floor.add(bottom(i));
        }
        floor.addAll(List.of(bottom(notch.end()), lower[1], lower[0]));
        PlanFill.fill(solid, List.of(floor.stream().mapToInt(v -> v).toArray()), true, MoldRegion.RECESS);
        PlanFill.openWall(solid,
                new int[] {columns[notch.start()][0], upper[0], upper[1], columns[notch.end()][0]},
                new int[] {bottom(notch.start()), lower[0], lower[1], bottom(notch.end())}, MoldRegion.RECESS);
    }

    private int bottom(int corner) {
        return columns[corner][columns[corner].length - 1];
    }

    /** Upright sides from the outline down to {@code z}, holes through to there; O(n). */
    Closing hang(double z) {
        int n = columns.length;
        int[] bottom = PlanFill.ring(solid, outline, z);
        for (int i = 0; i < n; i++) {
            int k = (i + 1) % n;
            zip(column(i, bottom[i], open[i]), column(k, bottom[k], open[i]));
        }
        List<int[]> below = new ArrayList<>();
        for (int[] hole : holes) {
            double[] xy = new double[2 * hole.length];
            for (int i = 0; i < hole.length; i++) {
                xy[2 * i] = solid.x(hole[i]);
                xy[2 * i + 1] = solid.y(hole[i]);
            }
            int[] lower = PlanFill.ring(solid, xy, z);
            PlanFill.wall(solid, PlanFill.reversed(hole), PlanFill.reversed(lower), MoldRegion.RECESS);
            below.add(lower);
        }
        return new Closing(bottom, below);
    }

    /**
     * Rings that the sides end in.
     *
     * @param outline counter-clockwise
     * @param holes counter-clockwise
     */
    record Closing(int[] outline, List<int[]> holes) {
    }

    private int[] column(int corner, int bottom, boolean fromFloor) {
        int[] all = columns[corner];
        return fromFloor ? new int[] {all[all.length - 1], bottom}
                : all.length == 1 ? new int[] {all[0], bottom} : new int[] {all[0], all[1], bottom};
    }

    /** Joins two columns from the top down. */
    private void zip(int[] left, int[] right) {
        int a = 0;
        int b = 0;
        byte side = (byte) MoldRegion.SIDE.ordinal();
        while (a + 1 < left.length || b + 1 < right.length) {
            boolean goLeft = b + 1 == right.length
                    || a + 1 < left.length && solid.z(left[a + 1]) >= solid.z(right[b + 1]);
            if (goLeft) {
                solid.addTriangle(left[a], left[a + 1], right[b], side);
                a++;
            } else {
                solid.addTriangle(left[a], right[b + 1], right[b], side);
                b++;
            }
        }
    }
}
