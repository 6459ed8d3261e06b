package layupmold.geometry.opening;

import java.util.Arrays;
import java.util.PriorityQueue;

/**
 * Shortens a long loop by cutting off corners, shortest cut first, so that the cubic search for a minimum-area patch
 * stays quick: n corners cost O(n log n) plus the cubic cost of those that remain.
 */
final class EarReduction {

    private record Ear(double cost, int corner, int stamp) implements Comparable<Ear> {
        @Override
        public int compareTo(Ear other) {
            int byCost = Double.compare(cost, other.cost);
            return byCost != 0 ? byCost : Integer.compare(corner, other.corner);
        }
    }

    private final OpeningLoop loop;
    private final int[] before;
    private final int[] after;
    private final int[] stamp;
    private final PriorityQueue<Ear> queue = new PriorityQueue<>();

    private EarReduction(OpeningLoop loop) {
        this.loop = loop;
        int n = loop.cornerCount();
        before = new int[n];
        after = new int[n];
        stamp = new int[n];
        for (int i = 0; i < n; i++) {
            before[i] = (i + n - 1) % n;
            after[i] = (i + 1) % n;
        }
        for (int i = 0; i < n; i++) {
            offer(i);
        }
    }

    /** A patch of the whole loop: cut corners, then least area over the {@code keep} or so that remain; or null. */
    static int[] patch(OpeningLoop loop, int keep) {
        return new EarReduction(loop).run(keep);
    }

    private int[] run(int keep) {
        int n = loop.cornerCount();
        int[] triangles = new int[3 * (n - 2)];
        int size = 0;
        boolean[] gone = new boolean[n];
        int left = n;
        while (left > keep && !queue.isEmpty()) {
            Ear ear = queue.poll();
            int v = ear.corner();
            if (gone[v] || ear.stamp() != stamp[v]) {
                continue;
            }
            triangles[size++] = before[v];
            triangles[size++] = v;
            triangles[size++] = after[v];
            gone[v] = true;
            left--;
            after[before[v]] = after[v];
            before[after[v]] = before[v];
            offer(before[v]);
            offer(after[v]);
        }
        int[] rest = new int[left];
        double[] xyz = new double[3 * left];
        for (int i = 0, k = 0; i < n; i++) {
            if (!gone[i]) {
                System.arraycopy(loop.xyz, 3 * i, xyz, 3 * k, 3);
                rest[k++] = i;
            }
        }
        if (left > 4 * keep) {
            return null;
        }
        int[] core = MinimumAreaPatch.triangulate(xyz, (i, j) -> loop.isFaceEdge(rest[i], rest[j]));
        if (core == null) {
            return null;
        }
        int[] all = Arrays.copyOf(triangles, size + core.length);
        for (int i = 0; i < core.length; i++) {
            all[size + i] = rest[core[i]];
        }
        return all;
    }

    private void offer(int v) {
        stamp[v]++;
        int a = before[v];
        int b = after[v];
        if (!loop.isFaceEdge(a, b) && facesLikeTheFace(a, v, b)) {
            queue.add(new Ear(Triangles.distance(loop.xyz, a, b), v, stamp[v]));
        }
    }

    /** A corner whose cut would lie back on the face is not one of the opening's own. */
    private boolean facesLikeTheFace(int a, int v, int b) {
        double[] ear = new double[3];
        Triangles.normal(loop.xyz, a, v, b, ear, 0);
        return Triangles.cosine(ear, 0, loop.faceNormals, 3 * ((v + loop.cornerCount() - 1) % loop.cornerCount()))
                + Triangles.cosine(ear, 0, loop.faceNormals, 3 * v) > 0;
    }
}
