package layupmold.geometry.fillet;

/** An edge of the sheet to look at, and where it is to be cut: where filling begins, or in the middle. */
final class SheetEdge {

    private static final int BISECTIONS = 16;
    /** Filling that begins nearer to an end than this share of the edge begins there. */
    private static final double AT_END = 0.1;
    private static final double SHORTEST_BY_RADIUS = 0.05;
    /** Ends that are next to each other on the sheet are far apart on the filling from so many shortest edges on. */
    private static final double APART = 3;

    /** Of the edge between balls may be left at most when it is cut. */
    private static final double LEAST_PROGRESS = 0.85;

    private final FilletSheet sheet;
    private final RollingBall rolling;
    final int a;
    final int b;
    /** The given triangles that meet in it; the same twice inside of one. */
    final int firstSource;
    int secondSource;
    /** Whether it is to be cut however near to the filling it lies. */
    boolean always;
    /** What to cut it with; null if it may stay. */
    Spot cut;
    /** Whether its ends belong to balls between which there is no way over the filling. */
    boolean torn;
    /** Where, from a to b: 0 to 1. */
    double share;

    SheetEdge(FilletSheet sheet, RollingBall rolling, int a, int b, int source) {
        this.sheet = sheet;
        this.rolling = rolling;
        this.a = a;
        this.b = b;
        this.firstSource = source;
        this.secondSource = source;
    }

    void look(SpotProbe probe) {
        double shortest = SHORTEST_BY_RADIUS * rolling.radiusMm();
        Spot first = sheet.spots.get(a);
        Spot second = sheet.spots.get(b);
        boolean complete = first.share == 1 && second.share == 1;
        share = 0.5;
        if (squaredLength() < shortest * shortest) {
            if (first.isTorn && second.isTorn) {
                return;
            }
            double away = Math.sqrt(sheet.squaredDistance(a, b));
            if (complete && (always ? away > shortest : away > APART * shortest && !isNear(probe, first, second))) {
                cut = probe.between(first, second);
                torn = Math.max(cut.away(first), cut.away(second)) > LEAST_PROGRESS * away;
            }
            return;
        }
        if (!always && complete && first.isFilled() && second.isFilled() && isNear(probe, first, second)) {
            return;
        }
        Spot middle = at(probe, 0.5);
        if (!always && isFine(probe, first, middle, second)) {
            return;
        }
        cut = middle;
        Spot bare = first.isFilled() ? second : first;
        if (first.isFilled() != second.isFilled() && bare.depthMm == 0) {
            cutAtBeginning(probe, first.isFilled());
        }
    }

    private double squaredLength() {
        double square = 0;
        for (int k = 0; k < 3; k++) {
            square += (sheet.ground(a, k) - sheet.ground(b, k)) * (sheet.ground(a, k) - sheet.ground(b, k));
        }
        return square;
    }

    private Spot at(SpotProbe probe, double where) {
        int[] sources = firstSource == secondSource ? new int[] {firstSource} : new int[] {firstSource, secondSource};
        return probe.at(on(0, where), on(1, where), on(2, where), sources, sheet.spots.get(a), sheet.spots.get(b));
    }

    private double on(int k, double where) {
        return (1 - where) * sheet.ground(a, k) + where * sheet.ground(b, k);
    }

    private double middle(int k) {
        return (sheet.filled(a, k) + sheet.filled(b, k)) / 2;
    }

    /** Whether the filled edge's middle lies on the filling. */
    private boolean isNear(SpotProbe probe, Spot... near) {
        return Math.abs(probe.missMm(middle(0), middle(1), middle(2), near)) <= rolling.chordMm();
    }

    private boolean isFine(SpotProbe probe, Spot first, Spot middle, Spot second) {
        if (!first.isFilled() && !second.isFilled() && !middle.isFilled()) {
            return true;
        }
        if (first.share == 1 && second.share == 1 && middle.share == 1) {
            return isNear(probe, middle, first, second);
        }
        double dx = middle(0) - middle.filledX;
        double dy = middle(1) - middle.filledY;
        double dz = middle(2) - middle.filledZ;
        return Math.sqrt(dx * dx + dy * dy + dz * dz) <= rolling.runOutChordMm();
    }

    private void cutAtBeginning(SpotProbe probe, boolean filledA) {
        double filled = filledA ? 0 : 1;
        double bare = 1 - filled;
        for (int i = 0; i < BISECTIONS; i++) {
            double between = (filled + bare) / 2;
            if (i == 0 ? cut.isFilled() : !rests(probe, between)) {
                filled = between;
            } else {
                bare = between;
            }
        }
        if (bare > AT_END && bare < 1 - AT_END) {
            cut = at(probe, bare);
            share = bare;
        }
    }

    private boolean rests(SpotProbe probe, double where) {
        double x = on(0, where);
        double y = on(1, where);
        double z = on(2, where);
        return rolling.rests(probe.ball, x, y, z, firstSource)
                || secondSource != firstSource && rolling.rests(probe.ball, x, y, z, secondSource);
    }
}
