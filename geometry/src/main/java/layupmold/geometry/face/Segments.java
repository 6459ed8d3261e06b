package layupmold.geometry.face;

import java.util.function.IntPredicate;
import layupmold.geometry.mesh.DisjointSets;
import layupmold.geometry.mesh.EdgeTopology;

/**
 * The smooth segments of a shell's surface, which end at sharp and rounding edges: walls, rim strips, chamfers, detail.
 *
 * @param ofTriangle a number below the number of triangles, the same for all of one segment
 * @param facet the same for pieces of segments that end at sharp hollows too: a groove's floor apart from its sides
 * @param widthMm area over half the border of the segment around each triangle: a strip of width w has w, a wall much
 *     more than its thickness
 * @param thicknessMm mean over the segment's area: a rim strip of an uneven wall is as wide on average as that is thick
 */
record Segments(int[] ofTriangle, int[] facet, float[] widthMm, float[] thicknessMm) {

    /** O(n α(n)). */
    static Segments of(EdgeTopology topology, Creases creases) {
        float[] thickness = creases.thickness();
        EdgeAngles edges = creases.edges();
        int n = thickness.length;
        DisjointSets sets = new DisjointSets(n);
        DisjointSets facets = new DisjointSets(n);
        for (int h = 0; h < 3 * n; h++) {
            int g = topology.twin(h);
            if (g > h && !creases.isEnd(h)) {
                sets.join(h / 3, g / 3);
                if (!creases.isHollow(h)) {
                    facets.join(h / 3, g / 3);
                }
            }
        }
        Segments segments = new Segments(new int[n], new int[n], new float[n], new float[n]);
        double[] area = new double[n];
        double[] volume = new double[n];
        double[] border = new double[n];
        for (int t = 0; t < n; t++) {
            int segment = sets.find(t);
            segments.ofTriangle[t] = segment;
            segments.facet[t] = facets.find(t);
            area[segment] += edges.areas()[t];
            volume[segment] += edges.areas()[t] * thickness[t];
        }
        for (int h = 0; h < 3 * n; h++) {
            int g = topology.twin(h);
            int segment = segments.ofTriangle[h / 3];
            if (g < 0 || segments.ofTriangle[g / 3] != segment) {
                border[segment] += edges.length(h);
            }
        }
        for (int t = 0; t < n; t++) {
            int segment = segments.ofTriangle[t];
            segments.widthMm[t] = (float) (2 * area[segment] / Math.max(border[segment], 1e-12));
            segments.thicknessMm[t] = (float) (volume[segment] / Math.max(area[segment], 1e-12));
        }
        return segments;
    }

    /** By facet, the share of its area whose patches are chosen. */
    double[] share(Patches patches, IntPredicate chosen) {
        double[] share = new double[facet.length];
        double[] area = new double[facet.length];
        for (int p = 0; p < patches.count(); p++) {
            int f = facet[patches.probe()[p]];
            area[f] += patches.area()[p];
            share[f] += chosen.test(p) ? patches.area()[p] : 0;
        }
        for (int f = 0; f < share.length; f++) {
            share[f] /= Math.max(area[f], 1e-12);
        }
        return share;
    }
}
