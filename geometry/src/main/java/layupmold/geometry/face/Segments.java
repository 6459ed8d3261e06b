package layupmold.geometry.face;

import java.util.function.IntPredicate;
import layupmold.geometry.mesh.DisjointSets;
import layupmold.geometry.mesh.EdgeTopology;

/**
 * The smooth segments of a shell's surface, which end at sharp and rounding edges: walls, rim strips, chamfers, detail.
 *
 * @param ofTriangle a number below the number of triangles, the same for all of one segment
 * @param widthMm area over half the border of the segment around each triangle: a strip of width w has w, a wall much
 *     more than its thickness
 * @param thicknessMm mean over the segment's area: a rim strip of an uneven wall is as wide on average as that is thick
 */
record Segments(int[] ofTriangle, float[] widthMm, float[] thicknessMm) {

    /** O(n α(n)). */
    static Segments of(EdgeTopology topology, Creases creases) {
        float[] thickness = creases.thickness();
        EdgeAngles edges = creases.edges();
        int n = thickness.length;
        DisjointSets sets = new DisjointSets(n);
        for (int h = 0; h < 3 * n; h++) {
            int g = topology.twin(h);
            if (g > h && !creases.isEnd(h)) {
                sets.join(h / 3, g / 3);
            }
        }
        Segments segments = new Segments(new int[n], new float[n], new float[n]);
        double[] area = new double[n];
        double[] volume = new double[n];
        double[] border = new double[n];
        for (int t = 0; t < n; t++) {
            int segment = sets.find(t);
            segments.ofTriangle[t] = segment;
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

    /** By segment, the share of its area whose patches are chosen. */
    double[] share(Patches patches, IntPredicate chosen) {
        double[] share = new double[ofTriangle.length];
        double[] area = new double[ofTriangle.length];
        for (int p = 0; p < patches.count(); p++) {
            int segment = ofTriangle[patches.probe()[p]];
            area[segment] += patches.area()[p];
            share[segment] += chosen.test(p) ? patches.area()[p] : 0;
        }
        for (int segment = 0; segment < share.length; segment++) {
            share[segment] /= Math.max(area[segment], 1e-12);
        }
        return share;
    }
}
