package layupmold.geometry.plug;

import java.util.Arrays;
import java.util.List;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.report.OpeningFigures;
import org.joml.Vector3d;

/** The core plugs' figures, measured on the finished solid. */
public final class PlugMeasurement {

    /** Triangles smaller than this (twice the area, mm²) have no reliable slope in 32-bit coordinates. */
    private static final double LEAST_TWICE_AREA = 1e-3;

    private PlugMeasurement() {
    }

    /**
     * O(n).
     *
     * @param solid standing with the pull along z
     * @param openings how many the part has
     */
    public static OpeningFigures measure(TriangleMesh solid, byte[] regions, EdgeTopology topology, int openings) {
        List<PlugFoot> plugs = PlugFoot.find(regions, topology);
        if (plugs.isEmpty()) {
            return new OpeningFigures(openings, 0, null, null);
        }
        double rise = Double.POSITIVE_INFINITY;
        double draft = 90;
        for (PlugFoot plug : plugs) {
            int[] corners = Arrays.stream(plug.triangles())
                    .flatMap(t -> Arrays.stream(solid.triangles(), 3 * t, 3 * t + 3)).toArray();
            draft = Math.min(draft, leastDraftDeg(new TriangleMesh(solid.xyz(), corners)));
            rise = Math.min(rise, highest(solid, corners) - highest(solid, plug.loop()));
        }
        return new OpeningFigures(openings - plugs.size(), plugs.size(), rise, draft);
    }

    private static double highest(TriangleMesh solid, int[] vertices) {
        return Arrays.stream(vertices).mapToDouble(v -> solid.xyz()[3 * v + 2]).max().orElseThrow();
    }

    /** Least angle between triangles, slivers left out, and the pull, degrees. O(n). */
    static double leastDraftDeg(TriangleMesh triangles) {
        double least = 90;
        for (int t = 0; t < triangles.triangleCount(); t++) {
            Vector3d n = triangles.areaNormal(t);
            double length = n.length();
            if (length > LEAST_TWICE_AREA) {
                least = Math.min(least, StrictMath.toDegrees(StrictMath.asin(n.z / length)));
            }
        }
        return least;
    }
}
