package layupmold.geometry.mesh.prepare;

import java.util.Arrays;
import layupmold.geometry.mesh.EdgeTopology;
import org.joml.Vector3d;

/**
 * Takes surfaces apart where more than two triangles meet in an edge, or more than one fan in a vertex.
 *
 * <p>At a crowded edge with as many triangles one way as the other, neighbours that enclose material between them stay
 * together, so solids that touch along an edge part cleanly; else the two triangles that continue each other most
 * smoothly stay together and the rest get a boundary, so a sheet standing on a wall comes off it.
 */
final class ManifoldSplitter {

    /** More triangles than this around one edge are no surface, and are cut all apart. */
    private static final int MOST_AROUND_AN_EDGE = 64;

    private final Surface surface;
    private final int[] mate;

    private ManifoldSplitter(Surface surface, int[] mate) {
        this.surface = surface;
        this.mate = mate;
    }

    /** Mates the half-edges of one crowded edge in pairs; those left over become boundary. */
    static void pair(Surface surface, int[] mate, int[] group) {
        new ManifoldSplitter(surface, mate).pair(group);
    }

    private void pair(int[] group) {
        for (int h : group) {
            mate[h] = EdgeTopology.BOUNDARY;
        }
        if (group.length > MOST_AROUND_AN_EDGE) {
            return;
        }
        int low = Math.min(from(group[0]), to(group[0]));
        int forward = 0;
        for (int h : group) {
            forward += from(h) == low ? 1 : 0;
        }
        double[] angle = angles(group, low);
        if (2 * forward == group.length && pairByMaterial(group, angle, low)) {
            return;
        }
        pairBySmoothness(group, angle, low);
    }

    private int from(int h) {
        return surface.triangles()[h];
    }

    private int to(int h) {
        return surface.triangles()[EdgeTopology.next(h)];
    }

    private Vector3d position(int v) {
        return new Vector3d(surface.xyz()[3 * v], surface.xyz()[3 * v + 1], surface.xyz()[3 * v + 2]);
    }

    /** Angle of each triangle around the edge, counter-clockwise seen against the edge's direction from {@code low}. */
    private double[] angles(int[] group, int low) {
        int high = from(group[0]) == low ? to(group[0]) : from(group[0]);
        Vector3d origin = position(low);
        Vector3d axis = position(high).sub(origin).normalize();
        Vector3d first = null;
        Vector3d second = null;
        double[] angle = new double[group.length];
        for (int i = 0; i < group.length; i++) {
            Vector3d apex = position(surface.triangles()[EdgeTopology.previous(group[i])]).sub(origin);
            Vector3d arm = apex.sub(new Vector3d(axis).mul(apex.dot(axis)));
            if (first == null && arm.lengthSquared() > 0) {
                first = new Vector3d(arm).normalize();
                second = new Vector3d(axis).cross(first);
            }
            angle[i] = first == null ? 0 : Math.atan2(arm.dot(second), arm.dot(first));
        }
        return angle;
    }

    /**
     * A triangle that runs along the edge has its front at greater angles, so its material is at lesser ones: it goes
     * with the next lower triangle if that one runs the other way.
     */
    private boolean pairByMaterial(int[] group, double[] angle, int low) {
        Integer[] order = new Integer[group.length];
        Arrays.setAll(order, i -> i);
        Arrays.sort(order, (i, j) -> angle[i] != angle[j] ? Double.compare(angle[i], angle[j])
                : Integer.compare(group[i], group[j]));
        int n = order.length;
        for (int i = 0; i < n; i++) {
            boolean runsAlong = from(group[order[i]]) == low;
            boolean nextRunsAlong = from(group[order[(i + 1) % n]]) == low;
            if (runsAlong == nextRunsAlong) {
                return false;
            }
        }
        for (int i = 0; i < n; i++) {
            int h = group[order[i]];
            if (from(h) == low) {
                join(h, group[order[(i + n - 1) % n]]);
            }
        }
        return true;
    }

    private void join(int h, int g) {
        mate[h] = g;
        mate[g] = h;
    }

    private void pairBySmoothness(int[] group, double[] angle, int low) {
        boolean[] done = new boolean[group.length];
        while (true) {
            int bestI = -1;
            int bestJ = -1;
            double best = Double.POSITIVE_INFINITY;
            for (int i = 0; i < group.length; i++) {
                for (int j = i + 1; j < group.length; j++) {
                    if (done[i] || done[j] || from(group[i]) == low == (from(group[j]) == low)) {
                        continue;
                    }
                    double bend = Math.abs(Math.PI - Math.abs(angle[i] - angle[j]));
                    if (bend < best) {
                        best = bend;
                        bestI = i;
                        bestJ = j;
                    }
                }
            }
            if (bestI < 0) {
                return;
            }
            done[bestI] = true;
            done[bestJ] = true;
            join(group[bestI], group[bestJ]);
        }
    }

    /** @return {@code surface} with every fan of triangles around a vertex given a vertex of its own; O(n) */
    static Surface splitVertices(Surface surface, int[] mate) {
        int[] triangles = surface.triangles();
        int[] renumbered = null;
        boolean[] used = new boolean[surface.vertexCount()];
        boolean[] seen = new boolean[triangles.length];
        double[] xyz = surface.xyz();
        int count = surface.vertexCount();
        for (int h = 0; h < triangles.length; h++) {
            if (seen[h]) {
                continue;
            }
            int v = triangles[h];
            int label = v;
            if (used[v]) {
                renumbered = renumbered == null ? triangles.clone() : renumbered;
                xyz = 3 * count < xyz.length ? xyz : Arrays.copyOf(xyz, xyz.length + Math.max(48, xyz.length / 24 * 3));
                System.arraycopy(xyz, 3 * v, xyz, 3 * count, 3);
                label = count++;
            }
            used[v] = true;
            walkFan(h, mate, seen, renumbered, label);
        }
        return renumbered == null ? surface
                : new Surface(Arrays.copyOf(xyz, 3 * count), renumbered, surface.posted());
    }

    private static void walkFan(int first, int[] mate, boolean[] seen, int[] labels, int label) {
        int h = first;
        do {
            seen[h] = true;
            if (labels != null) {
                labels[h] = label;
            }
            h = mate[EdgeTopology.previous(h)];
        } while (h >= 0 && h != first);
        if (h == first) {
            return;
        }
        for (h = mate[first]; h >= 0; h = mate[h]) {
            h = EdgeTopology.next(h);
            seen[h] = true;
            if (labels != null) {
                labels[h] = label;
            }
        }
    }
}
