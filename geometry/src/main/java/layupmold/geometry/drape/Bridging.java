package layupmold.geometry.drape;

import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.bvh.RestingBall;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.parallel.Parallel;

/**
 * Corners that the cloth spans: a ball of the cloth's least radius, resting on the sheet from the cloth's side at each
 * vertex, would cut into the sheet elsewhere. O(vertices · log triangles).
 */
final class Bridging {

    /** A ball may cut in by this share of its radius before it counts: facets are not a corner. */
    private static final double SLACK = 0.05;
    private static final int GRAIN = 4096;

    private final double[] gapMm;
    private final double areaMm2;
    private final int deepest;

    private Bridging(double[] gapMm, double areaMm2, int deepest) {
        this.gapMm = gapMm;
        this.areaMm2 = areaMm2;
        this.deepest = deepest;
    }

    static Bridging none(int vertices) {
        return new Bridging(new double[vertices], 0, -1);
    }

    static Bridging of(ToolSheet sheet, double leastRadiusMm) {
        int n = sheet.mesh().vertexCount();
        double[] normal = new double[3 * n];
        double[] area = new double[n];
        vertexNormals(sheet, normal, area);
        leaveOutCaps(sheet, area);
        TriangleBvh bvh = sheet.bvh();
        double[] gap = new double[n];
        double[] xyz = sheet.mesh().xyz();
        Parallel.forRanges(n, GRAIN, (chunk, from, to) -> {
            NearestPoint nearest = new NearestPoint();
            for (int v = from; v < to; v++) {
                if (area[v] > 0) {
                    int p = 3 * v;
                    gap[v] = RestingBall.gapMm(bvh, xyz[p], xyz[p + 1], xyz[p + 2], normal[p], normal[p + 1],
                            normal[p + 2], leastRadiusMm, SLACK, null, nearest);
                }
            }
        });
        double bridged = 0;
        int deepest = -1;
        for (int v = 0; v < n; v++) {
            if (gap[v] > 0) {
                bridged += area[v];
                deepest = deepest < 0 || gap[v] > gap[deepest] ? v : deepest;
            }
        }
        return new Bridging(gap, bridged, deepest);
    }

    private static void vertexNormals(ToolSheet sheet, double[] normal, double[] area) {
        int[] triangles = sheet.mesh().triangles();
        for (int t = 0; t < triangles.length / 3; t++) {
            var n = sheet.mesh().areaNormal(t);
            for (int k = 0; k < 3; k++) {
                int v = triangles[3 * t + k];
                normal[3 * v] += n.x;
                normal[3 * v + 1] += n.y;
                normal[3 * v + 2] += n.z;
                area[v] += n.length() / 6;
            }
        }
        for (int v = 0; v < area.length; v++) {
            double length = Math.sqrt(normal[3 * v] * normal[3 * v] + normal[3 * v + 1] * normal[3 * v + 1]
                    + normal[3 * v + 2] * normal[3 * v + 2]);
            if (length > 0) {
                for (int k = 0; k < 3; k++) {
                    normal[3 * v + k] /= length;
                }
            }
        }
    }

    /** A cap and the mark around it are cut out after demolding: whether cloth spans them matters to nobody. */
    private static void leaveOutCaps(ToolSheet sheet, double[] area) {
        if (sheet.trimmed().triangleCount() == sheet.mesh().triangleCount()) {
            return;
        }
        int[] uses = new int[area.length];
        for (int v : sheet.mesh().triangles()) {
            uses[v]++;
        }
        for (int v : sheet.trimmed().triangles()) {
            uses[v]--;
        }
        for (int v = 0; v < area.length; v++) {
            area[v] = uses[v] > 0 ? 0 : area[v];
        }
    }

    /** Gap under the cloth at each vertex. */
    double[] gapMm() {
        return gapMm;
    }

    double areaMm2() {
        return areaMm2;
    }

    /** Vertex over the largest gap, or −1. */
    int deepest() {
        return deepest;
    }

    double deepestMm() {
        return deepest < 0 ? 0 : gapMm[deepest];
    }
}
