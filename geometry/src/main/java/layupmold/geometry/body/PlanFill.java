package layupmold.geometry.body;

import java.util.List;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.delaunay.ConstrainedDelaunay;
import layupmold.geometry.delaunay.PlanarGraphException;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.mesh.LabelledMeshBuilder;

/** Fills and joins rings of a solid's vertices with triangles. */
final class PlanFill {

    private PlanFill() {
    }

    /** A ring of new vertices at one height. */
    static int[] ring(LabelledMeshBuilder solid, double[] xy, double z) {
        int[] ring = new int[xy.length / 2];
        for (int i = 0; i < ring.length; i++) {
            ring[i] = solid.addVertex(xy[2 * i], xy[2 * i + 1], z);
        }
        return ring;
    }

    /** Triangulates, in plan, what lies inside an odd number of rings; facing up or down. O(n log n). */
    static void fill(LabelledMeshBuilder solid, List<int[]> rings, boolean up, MoldRegion region) {
        int corners = rings.stream().mapToInt(ring -> ring.length).sum();
        int[] vertices = new int[corners];
        double[] xy = new double[2 * corners];
        int[][] numbered = new int[rings.size()][];
        int n = 0;
        for (int r = 0; r < numbered.length; r++) {
            numbered[r] = new int[rings.get(r).length];
            for (int i = 0; i < numbered[r].length; i++, n++) {
                numbered[r][i] = n;
                vertices[n] = rings.get(r)[i];
                xy[2 * n] = solid.x(vertices[n]);
                xy[2 * n + 1] = solid.y(vertices[n]);
            }
        }
        try {
            int[] triangles = ConstrainedDelaunay.polygon(xy, numbered);
            for (int i = 0; i < triangles.length; i += 3) {
                solid.addTriangle(vertices[triangles[i]], vertices[triangles[up ? i + 1 : i + 2]],
                        vertices[triangles[up ? i + 2 : i + 1]], (byte) region.ordinal());
            }
        } catch (PlanarGraphException e) {
            throw new Rejection(Finding.error("body", "border-too-narrow",
                    "The border has no room for what the body puts there: " + e.getMessage() + ".")
                    .at(Place.at(solid.x(vertices[0]), solid.y(vertices[0]), solid.z(vertices[0])))
                    .advising("Ask for a wider flange, or for a block without notches and holes."));
        }
    }

    /** Upright wall between two rings over each other, with the solid on the left of their direction. */
    static void wall(LabelledMeshBuilder solid, int[] upper, int[] lower, MoldRegion region) {
        for (int i = 0; i < upper.length; i++) {
            quad(solid, upper, lower, i, (i + 1) % upper.length, region);
        }
    }

    /** As {@link #wall}, for a path that does not close. */
    static void openWall(LabelledMeshBuilder solid, int[] upper, int[] lower, MoldRegion region) {
        for (int i = 0; i + 1 < upper.length; i++) {
            quad(solid, upper, lower, i, i + 1, region);
        }
    }

    private static void quad(
            LabelledMeshBuilder solid, int[] upper, int[] lower, int i, int k, MoldRegion region) {
        solid.addTriangle(lower[i], lower[k], upper[k], (byte) region.ordinal());
        solid.addTriangle(lower[i], upper[k], upper[i], (byte) region.ordinal());
    }

    static int[] reversed(int[] ring) {
        int[] reversed = new int[ring.length];
        for (int i = 0; i < ring.length; i++) {
            reversed[i] = ring[ring.length - 1 - i];
        }
        return reversed;
    }
}
