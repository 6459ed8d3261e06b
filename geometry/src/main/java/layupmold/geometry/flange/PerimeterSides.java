package layupmold.geometry.flange;

import java.util.Arrays;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;

/** How long the perimeter's sides may be for a flange to grow from them. */
public final class PerimeterSides {

    /**
     * What grows from longer sides is slivers, near which any distance to the surface is dear to find, and each of its
     * corners turns the whole side.
     */
    static final double LONGEST_MM = 4;

    /**
     * Where the perimeter turns from level to running up the pull, the skirt turns with it, and out of sides longer
     * than this it would grow folded.
     */
    private static final double LONGEST_AT_CORNER_MM = 1;
    private static final double CORNER_REACH_MM = 4;
    private static final double CORNER_COSINE = Math.cos(Math.toRadians(20));
    /** Rise by length of a side that runs up the pull. */
    private static final double STEEP = 0.3;

    private PerimeterSides() {
    }

    /**
     * O(n) for n sides, and those within reach of corners.
     *
     * @param face pull along z
     * @param perimeter half-edges of its border, one after the other
     * @return for each the length it may have, mm
     */
    public static double[] mostMm(TriangleMesh face, EdgeTopology topology, int[] perimeter) {
        int n = perimeter.length;
        Vector3d[] along = new Vector3d[n];
        Vector3d[] away = new Vector3d[n];
        for (int i = 0; i < n; i++) {
            int h = perimeter[i];
            along[i] = face.vertex(topology.to(h)).sub(face.vertex(topology.from(h)));
            away[i] = new Vector3d(along[i]).cross(face.areaNormal(h / 3));
        }
        double[] most = new double[n];
        Arrays.fill(most, LONGEST_MM);
        for (int i = 0; i < n; i++) {
            int next = (i + 1) % n;
            boolean turns = away[i].dot(away[next]) < CORNER_COSINE * away[i].length() * away[next].length();
            if (turns && (isSteep(along[i]) || isSteep(along[next]))) {
                shorten(along, next, 1, most);
                shorten(along, i, -1, most);
            }
        }
        return most;
    }

    private static boolean isSteep(Vector3d along) {
        return Math.abs(along.z) > STEEP * along.length();
    }

    /** @param step 1 to go on with the perimeter, -1 against it */
    private static void shorten(Vector3d[] along, int first, int step, double[] most) {
        int n = most.length;
        double walkedMm = 0;
        for (int k = 0; k < n && walkedMm < CORNER_REACH_MM; k++) {
            int i = Math.floorMod(first + k * step, n);
            most[i] = LONGEST_AT_CORNER_MM;
            walkedMm += along[i].length();
        }
    }
}
