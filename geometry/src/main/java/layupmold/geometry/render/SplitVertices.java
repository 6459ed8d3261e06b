package layupmold.geometry.render;

import java.util.Arrays;
import java.util.List;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * The vertices of a mesh as a graphics format wants them: one for every different normal or map key that meets at a
 * place.
 */
final class SplitVertices {

    /** Corner normals closer than this share a vertex. */
    private static final double SAME_NORMAL = Math.cos(Math.toRadians(12));

    /** Split vertex of each corner. */
    final int[] ofCorner;
    /** Number of split vertices. */
    final int count;
    /** Mesh vertex of each split vertex. */
    final int[] source;
    /** Unit normal of each split vertex. */
    final float[] normals;

    private final int[] firstCorner;
    private final int[] next;

    SplitVertices(TriangleMesh mesh, List<MapLayer> layers) {
        int[] triangles = mesh.triangles();
        float[] cornerNormals = ShadingNormals.ofCorners(mesh);
        ofCorner = new int[triangles.length];
        firstCorner = new int[triangles.length];
        next = new int[triangles.length];
        int[] firstSplit = new int[mesh.vertexCount()];
        Arrays.fill(firstSplit, -1);
        int made = 0;
        for (int c = 0; c < triangles.length; c++) {
            int v = triangles[c];
            int split = firstSplit[v];
            while (split >= 0 && !alike(c, firstCorner[split], cornerNormals, layers)) {
                split = next[split];
            }
            if (split < 0) {
                split = made++;
                firstCorner[split] = c;
                next[split] = firstSplit[v];
                firstSplit[v] = split;
            }
            ofCorner[c] = split;
        }
        count = made;
        source = new int[count];
        normals = new float[3 * count];
        for (int s = 0; s < count; s++) {
            source[s] = triangles[firstCorner[s]];
            System.arraycopy(cornerNormals, 3 * firstCorner[s], normals, 3 * s, 3);
        }
    }

    /** Mean of a layer over the triangles at each split vertex; NaN where it has no value. */
    float[] means(MapLayer layer) {
        float[] sum = new float[count];
        int[] members = new int[count];
        for (int c = 0; c < ofCorner.length; c++) {
            sum[ofCorner[c]] += layer.fractions()[c / 3];
            members[ofCorner[c]]++;
        }
        for (int s = 0; s < count; s++) {
            sum[s] /= members[s];
        }
        return sum;
    }

    private static boolean alike(int corner, int other, float[] normals, List<MapLayer> layers) {
        int i = 3 * corner;
        int j = 3 * other;
        double cosine = normals[i] * normals[j] + normals[i + 1] * normals[j + 1] + normals[i + 2] * normals[j + 2];
        if (cosine < SAME_NORMAL) {
            return false;
        }
        for (MapLayer layer : layers) {
            if (layer.key(corner / 3) != layer.key(other / 3)) {
                return false;
            }
        }
        return true;
    }
}
