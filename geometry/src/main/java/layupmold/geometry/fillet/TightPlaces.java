package layupmold.geometry.fillet;

import com.carrotsearch.hppc.DoubleArrayList;
import com.carrotsearch.hppc.IntArrayList;
import layupmold.geometry.bvh.FreeBall;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.parallel.Parallel;

/**
 * Where the ball cannot touch the sheet, and free balls beside those places to start from: points spread over the sheet
 * are tried, and edges that bend in are taken without. O(n log n), about one nearest-point query a point.
 *
 * @param creases edges that the ball does not reach
 * @param blocked for each triangle the index of the trial point on it where the ball cuts in most, or -1
 * @param points the trial points
 * @param centres of free balls
 */
record TightPlaces(Creases creases, int[] blocked, TrialPoints points, FreeCentres centres) {

    private static final int GRAIN = 1 << 10;
    private static final double SPACING_BY_RADIUS = 0.5;
    private static final byte RESTS = 1;
    private static final byte CUTS = 2;

    static TightPlaces find(RollingBall rolling, EdgeTopology topology) {
        int n = rolling.ground().triangleCount();
        Creases creases = Creases.of(rolling, topology);
        TrialPoints points = new TrialPoints(rolling.ground(), SPACING_BY_RADIUS * rolling.radiusMm());
        byte[] found = new byte[points.count()];
        int[] blocked = new int[n];
        Parallel.forRanges(n, GRAIN, (chunk, from, to) -> {
            FreeBall ball = rolling.ball();
            double[] p = new double[3];
            for (int t = from; t < to; t++) {
                blocked[t] = tryAll(rolling, ball, points, t, found, p);
            }
        });
        CellSet near = new CellSet(Math.max(rolling.radiusMm(), points.spacingMm));
        for (int i = 0; i < creases.points.size(); i += 3) {
            near.add(creases.points.get(i), creases.points.get(i + 1), creases.points.get(i + 2));
        }
        double[] p = new double[3];
        for (int t = 0; t < n; t++) {
            for (int i = points.first(t); blocked[t] >= 0 && i < points.first(t + 1); i++) {
                if (found[i] == CUTS) {
                    points.put(i, t, p);
                    near.add(p[0], p[1], p[2]);
                }
            }
        }
        return new TightPlaces(creases, blocked, points, centres(rolling, topology, creases, points, found, near));
    }

    private static int tryAll(
            RollingBall rolling, FreeBall ball, TrialPoints points, int t, byte[] found, double[] p) {
        int deepest = -1;
        double most = rolling.leastFillMm();
        for (int i = points.first(t); i < points.first(t + 1); i++) {
            points.put(i, t, p);
            double cut = rolling.cutMm(ball, p[0], p[1], p[2], t);
            found[i] = cut <= rolling.restingMm() ? RESTS : cut > rolling.leastFillMm() ? CUTS : 0;
            if (cut > most) {
                most = cut;
                deepest = i;
            }
        }
        return deepest;
    }

    private static FreeCentres centres(
            RollingBall rolling, EdgeTopology topology, Creases creases, TrialPoints points, byte[] found, CellSet near) {
        int n = rolling.ground().triangleCount();
        double radius = rolling.radiusMm();
        double[] normals = rolling.normals();
        DoubleArrayList all = new DoubleArrayList();
        double[] p = new double[3];
        for (int t = 0; t < n; t++) {
            for (int i = points.first(t); i < points.first(t + 1); i++) {
                if (found[i] != RESTS) {
                    continue;
                }
                points.put(i, t, p);
                if (near.contains(p[0], p[1], p[2])) {
                    for (int k = 0; k < 3; k++) {
                        all.add(p[k] + radius * normals[3 * t + k]);
                    }
                }
            }
        }
        all.add(free(rolling, creases.centres.toArray()));
        all.add(free(rolling, Lips.centres(rolling, topology, near)));
        return new FreeCentres(all.toArray());
    }

    /** Those of the centres whose balls cut in by no more than rounding. */
    private static double[] free(RollingBall rolling, double[] xyz) {
        boolean[] rests = new boolean[xyz.length / 3];
        Parallel.forRanges(rests.length, GRAIN, (chunk, from, to) -> {
            FreeBall ball = rolling.ball();
            for (int i = from; i < to; i++) {
                rests[i] = ball.cutMm(xyz[3 * i], xyz[3 * i + 1], xyz[3 * i + 2]) <= rolling.restingMm();
            }
        });
        DoubleArrayList left = new DoubleArrayList();
        for (int i = 0; i < rests.length; i++) {
            if (rests[i]) {
                left.add(xyz, 3 * i, 3);
            }
        }
        return left.toArray();
    }

    /** Triangles with a crease or a trial point that the ball does not reach, ascending. */
    int[] triangles(EdgeTopology topology) {
        boolean[] tight = new boolean[blocked.length];
        for (int i = 0; i < creases.edges.size(); i++) {
            tight[creases.edges.get(i) / 3] = true;
            tight[topology.twin(creases.edges.get(i)) / 3] = true;
        }
        IntArrayList list = new IntArrayList();
        for (int t = 0; t < tight.length; t++) {
            if (tight[t] || blocked[t] >= 0) {
                list.add(t);
            }
        }
        return list.toArray();
    }
}
