package layupmold.geometry.face;

import java.util.Arrays;
import org.joml.Vector3d;

/** Where a loop of a face's border zigzags from triangle to triangle. */
final class Zigzags {

    /** Half the length of border that is judged at once, in scales. */
    private static final double WINDOW = 2;
    /** Turning to and fro in a window: that of a square groove that runs out over the rim is 2 pi. */
    private static final double MOST_TURN = 8;
    /** A loop of which more than this share zigzags does so all around. */
    private static final double MUCH = 0.2;
    private static final int LEAST_CORNERS = 8;
    /** Points nearer to each other than this share of a scale do not turn. */
    private static final double SAME = 0.02;

    private final FaceMesh face;
    private final int[] loop;
    private final double scaleMm;

    private Zigzags(FaceMesh face, int[] loop, double scaleMm) {
        this.face = face;
        this.loop = loop;
        this.scaleMm = scaleMm;
    }

    /**
     * By corner of the loop, 1 where it zigzags, less and less in the scale beside, down to 0; null if it zigzags nowhere.
     * O(b) for b corners, times those in a window.
     *
     * @param loop half-edges of the border
     * @param length theirs, mm
     * @param scaleMm the wall's thickness, or what else sets the size of what is no shape but noise
     */
    static double[] shares(FaceMesh face, int[] loop, double[] length, double scaleMm) {
        return loop.length < LEAST_CORNERS ? null : new Zigzags(face, loop, scaleMm).shares(length);
    }

    /** Whether a loop zigzags all around; O(b) for b corners, times those in a window. */
    static boolean isAllAround(FaceMesh face, int[] loop, double[] length, double scaleMm) {
        double[] shares = shares(face, loop, length, scaleMm);
        return shares != null && Arrays.stream(shares).allMatch(share -> share == 1);
    }

    static double[] lengths(FaceMesh face, int[] loop) {
        double[] length = new double[loop.length];
        for (int i = 0; i < loop.length; i++) {
            length[i] = face.mesh().vertex(face.topology().from(loop[i]))
                    .distance(face.mesh().vertex(face.topology().to(loop[i])));
        }
        return length;
    }

    private Vector3d corner(int h) {
        return face.mesh().vertex(face.topology().from(h));
    }

    private double[] shares(double[] length) {
        int n = loop.length;
        double[] turn = turns();
        double[] share = new double[n];
        int count = 0;
        for (int i = 0; i < n; i++) {
            share[i] = isJagged(length, turn, i) ? 1 : 0;
            count += share[i] > 0 ? 1 : 0;
        }
        if (count == 0) {
            return null;
        }
        if (count > MUCH * n) {
            Arrays.fill(share, 1);
            return share;
        }
        for (int lap = 0; lap < 2 * n; lap++) {
            int i = lap % n;
            int j = (i + 1) % n;
            share[j] = Math.max(share[j], share[i] - length[i] / scaleMm);
        }
        for (int lap = 2 * n - 1; lap >= 0; lap--) {
            int i = lap % n;
            int j = (i + 1) % n;
            share[i] = Math.max(share[i], share[j] - length[i] / scaleMm);
        }
        return share;
    }

    /** Angles at the corners, positive to the left of the way. */
    private double[] turns() {
        int n = loop.length;
        double[] turn = new double[n];
        Vector3d last = corner(loop[n - 1]);
        Vector3d in = null;
        for (int i = 0; i < 2 * n; i++) {
            Vector3d at = corner(loop[i % n]);
            if (at.distance(last) < SAME * scaleMm) {
                continue;
            }
            Vector3d out = new Vector3d(at).sub(last);
            if (in != null && i >= n) {
                int h = loop[(i - 1) % n];
                double sense = in.cross(out, new Vector3d()).dot(face.mesh().areaNormal(h / 3));
                turn[(i - 1) % n] = Math.copySign(in.angle(out), sense);
            }
            in = out;
            last = at;
        }
        return turn;
    }

    private boolean isJagged(double[] length, double[] turn, int i) {
        int n = length.length;
        double sum = Math.abs(turn[i]);
        double net = turn[i];
        int count = 1;
        int from = i;
        for (double gone = 0; gone < WINDOW * scaleMm && count < n; count++) {
            from = (from + n - 1) % n;
            gone += length[from];
            sum += Math.abs(turn[from]);
            net += turn[from];
        }
        int to = i;
        for (double gone = 0; gone < WINDOW * scaleMm && count < n; count++) {
            gone += length[to];
            to = (to + 1) % n;
            sum += Math.abs(turn[to]);
            net += turn[to];
        }
        return sum - Math.abs(net) > MOST_TURN;
    }
}
