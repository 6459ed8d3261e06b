package layupmold.geometry.mesh.prepare;

import java.util.Arrays;
import layupmold.geometry.mesh.EdgeTopology;

/**
 * Takes apart edges along which a surface touches itself while both ends stay common, so that doubling vertices cannot
 * help: each of the sheets that pass gets a vertex of its own in the middle of the edge.
 */
final class EdgeDoubler {

    private final Surface surface;
    private final int[] mate;
    private final int[] middle;
    private int vertices;

    private EdgeDoubler(Surface surface, int[] mate) {
        this.surface = surface;
        this.mate = mate;
        this.middle = new int[mate.length];
        this.vertices = surface.vertexCount();
        Arrays.fill(middle, -1);
    }

    /**
     * @param topology edges of {@code surface}, by position; those that are not manifold are split
     * @param mate which half-edges belong together, sheet by sheet
     */
    static Surface split(Surface surface, EdgeTopology topology, int[] mate) {
        EdgeDoubler doubler = new EdgeDoubler(surface, mate);
        int cuts = 0;
        for (int h = 0; h < mate.length; h++) {
            if (topology.twin(h) == EdgeTopology.NON_MANIFOLD) {
                doubler.mark(h);
                cuts++;
            }
        }
        return doubler.rebuild(topology, cuts);
    }

    private void mark(int h) {
        if (middle[h] < 0) {
            middle[h] = vertices++;
            if (mate[h] >= 0) {
                middle[mate[h]] = middle[h];
            }
        }
    }

    private Surface rebuild(EdgeTopology topology, int cuts) {
        double[] xyz = Arrays.copyOf(surface.xyz(), 3 * vertices);
        int[] triangles = Arrays.copyOf(surface.triangles(), surface.triangles().length + 3 * cuts);
        int[] posted = Arrays.copyOf(surface.posted(), surface.posted().length + cuts);
        int at = surface.triangleCount();
        for (int t = 0; t < surface.triangleCount(); t++) {
            int[] rim = rim(t);
            for (int i = 1; i + 1 < rim.length; i++) {
                int slot = i == 1 ? t : at++;
                triangles[3 * slot] = rim[0];
                triangles[3 * slot + 1] = rim[i];
                triangles[3 * slot + 2] = rim[i + 1];
                posted[slot] = surface.posted()[t];
            }
        }
        for (int h = 0; h < middle.length; h++) {
            for (int k = 0; k < 3 && middle[h] >= 0; k++) {
                xyz[3 * middle[h] + k] = (xyz[3 * topology.from(h) + k] + xyz[3 * topology.to(h) + k]) / 2;
            }
        }
        return new Surface(xyz, triangles, posted);
    }

    /** Corners and middles of triangle {@code t} in turn, a middle first if there is one: its fan has no empty triangle. */
    private int[] rim(int t) {
        int[] rim = new int[6];
        int n = 0;
        int start = 3 * t;
        while (start < 3 * t + 2 && middle[start] < 0) {
            start++;
        }
        for (int i = 0, h = start; i < 3; i++, h = EdgeTopology.next(h)) {
            if (middle[h] >= 0) {
                rim[n++] = middle[h];
            }
            rim[n++] = surface.triangles()[EdgeTopology.next(h)];
        }
        return Arrays.copyOf(rim, n);
    }
}
