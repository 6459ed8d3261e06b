package layupmold.geometry.mesh.prepare;

import java.util.ArrayDeque;
import layupmold.geometry.mesh.EdgeTopology;

/**
 * Removes triangles without height, whose normals are noise, and keeps the surface whole: a needle (one edge without
 * length) is collapsed, a cap (a corner on the opposite edge) has that edge flipped away, on the boundary it is dropped.
 * Vertices move by no more than the rounding of the posted coordinates. O(n) where there are few.
 */
final class SliverRemover {

    private final EditableMesh mesh;
    private final int[] posted;
    private final double rounding;
    private final ArrayDeque<Integer> queue = new ArrayDeque<>();
    private int removed;
    private int firstTriangle = -1;

    /**
     * @param surface without the removed triangles; vertices keep their numbers
     * @param removed slivers removed
     * @param left slivers that could not be removed
     * @param firstTriangle posted index of the first sliver, or -1
     */
    record Removed(Surface surface, int removed, int left, int firstTriangle) {
    }

    private SliverRemover(Surface surface, EdgeTopology topology, double rounding) {
        int[] twin = new int[topology.halfEdgeCount()];
        for (int h = 0; h < twin.length; h++) {
            twin[h] = topology.twin(h);
        }
        this.mesh = new EditableMesh(surface.xyz(), surface.triangles().clone(), twin);
        this.posted = surface.posted();
        this.rounding = rounding;
    }

    /** Removes triangles of {@code surface}, a manifold with edges {@code topology}, lower than {@code rounding}. */
    static Removed remove(Surface surface, EdgeTopology topology, double rounding) {
        boolean any = false;
        for (int t = 0; t < surface.triangleCount() && !any; t++) {
            any = isSliver(surface.xyz(), surface.triangles(), t, rounding);
        }
        return any ? new SliverRemover(surface, topology, rounding).run(surface) : new Removed(surface, 0, 0, -1);
    }

    private Removed run(Surface surface) {
        for (int t = 0; t < posted.length; t++) {
            if (isSliver(t)) {
                firstTriangle = firstTriangle < 0 ? posted[t] : firstTriangle;
                queue.add(t);
            }
        }
        // A flip may make another sliver, so each may come back a few times.
        long patience = 8L * queue.size();
        while (!queue.isEmpty() && patience-- > 0) {
            int t = queue.remove();
            if (!mesh.gone[t] && isSliver(t) && !treat(t)) {
                // Beside a sliver that goes later it may go after that.
                queue.add(t);
            }
        }
        int left = (int) queue.stream().distinct()
                .filter(t -> !mesh.gone[t] && isSliver(t)).count();
        boolean[] keep = new boolean[posted.length];
        for (int t = 0; t < keep.length; t++) {
            keep[t] = !mesh.gone[t];
        }
        return new Removed(new Surface(surface.xyz(), mesh.triangles, posted).keeping(keep), removed, left,
                firstTriangle);
    }

    private boolean isSliver(int t) {
        return isSliver(mesh.xyz, mesh.triangles, t, rounding);
    }

    private boolean treat(int t) {
        int shortest = 3 * t;
        int longest = 3 * t;
        for (int h = 3 * t + 1; h < 3 * t + 3; h++) {
            shortest = length(h) < length(shortest) ? h : shortest;
            longest = length(h) > length(longest) ? h : longest;
        }
        boolean done;
        if (length(shortest) <= rounding) {
            done = mesh.collapse(shortest) || mesh.twin[shortest] >= 0 && mesh.collapse(mesh.twin[shortest]);
        } else if (mesh.twin[longest] >= 0) {
            done = flip(longest);
        } else {
            done = dropAtBoundary(t, longest);
        }
        removed += done ? 1 : 0;
        return done;
    }

    private double length(int h) {
        return Segments.length(mesh.xyz, mesh.from(h), mesh.to(h));
    }

    /** Flips only where the neighbour is no sliver too: else the two would pass the lack of height to each other. */
    private boolean flip(int h) {
        int other = mesh.twin[h] / 3;
        if (isSliver(other) || !mesh.flip(h)) {
            return false;
        }
        requeue(h / 3);
        requeue(other);
        return true;
    }

    private void requeue(int t) {
        if (isSliver(t)) {
            queue.add(t);
        }
    }

    /** Takes a cap off the boundary, unless its other corner is on the boundary too. */
    private boolean dropAtBoundary(int t, int base) {
        int left = mesh.twin[EdgeTopology.next(base)];
        int right = mesh.twin[EdgeTopology.previous(base)];
        if (left < 0 || right < 0 || mesh.onRim(EdgeTopology.previous(base))) {
            return false;
        }
        mesh.twin[left] = EdgeTopology.BOUNDARY;
        mesh.twin[right] = EdgeTopology.BOUNDARY;
        mesh.gone[t] = true;
        return true;
    }

    /** True if the height over the longest side is at most {@code rounding}. */
    static boolean isSliver(double[] xyz, int[] triangles, int t, double rounding) {
        int a = 3 * triangles[3 * t];
        int b = 3 * triangles[3 * t + 1];
        int c = 3 * triangles[3 * t + 2];
        double ux = xyz[b] - xyz[a];
        double uy = xyz[b + 1] - xyz[a + 1];
        double uz = xyz[b + 2] - xyz[a + 2];
        double vx = xyz[c] - xyz[a];
        double vy = xyz[c + 1] - xyz[a + 1];
        double vz = xyz[c + 2] - xyz[a + 2];
        double wx = vx - ux;
        double wy = vy - uy;
        double wz = vz - uz;
        double nx = uy * vz - uz * vy;
        double ny = uz * vx - ux * vz;
        double nz = ux * vy - uy * vx;
        double longest2 = Math.max(ux * ux + uy * uy + uz * uz, Math.max(vx * vx + vy * vy + vz * vz,
                wx * wx + wy * wy + wz * wz));
        return nx * nx + ny * ny + nz * nz <= rounding * rounding * longest2;
    }
}
