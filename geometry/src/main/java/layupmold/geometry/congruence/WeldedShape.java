package layupmold.geometry.congruence;

import java.util.Arrays;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.VertexTriangles;
import layupmold.geometry.mesh.io.PartFile;
import layupmold.geometry.mesh.prepare.VertexWelder;
import layupmold.geometry.recipe.LengthUnit;
import org.joml.Vector3d;

/**
 * A mesh made ready for comparison: in mm, vertices at exactly the same place merged, triangles without three different
 * corners left out. What it knows about itself does not change when the mesh is moved, mirrored, or its vertices and
 * triangles are listed in another order, but for rounding.
 */
public final class WeldedShape {

    final TriangleMesh mesh;
    final VertexTriangles around;
    final Vector3d middle;
    /** Distance of every vertex from the middle. */
    final double[] radius;
    /** Vertices by rising radius. */
    final int[] byRadius;

    private WeldedShape(TriangleMesh mesh) {
        this.mesh = mesh;
        around = VertexTriangles.of(mesh);
        middle = new Vector3d();
        for (int v = 0; v < mesh.vertexCount(); v++) {
            middle.add(mesh.vertex(v));
        }
        middle.div(mesh.vertexCount());
        radius = new double[mesh.vertexCount()];
        Arrays.setAll(radius, v -> mesh.vertex(v).distance(middle));
        byRadius = sorted(radius);
    }

    /**
     * @param file as read
     * @param unit of the file's numbers, where its format has none of its own
     * @throws IllegalArgumentException if it has no triangle
     */
    public static WeldedShape of(PartFile file, LengthUnit unit) {
        return of(file.mesh(), (file.unit() == null ? unit : file.unit()).inMm());
    }

    static WeldedShape of(TriangleMesh soup, double scale) {
        VertexWelder.Welded welded = VertexWelder.weld(soup.xyz(), scale);
        int[] corners = new int[soup.triangles().length];
        int count = 0;
        for (int i = 0; i < corners.length; i += 3) {
            int a = welded.vertexOf()[soup.triangles()[i]];
            int b = welded.vertexOf()[soup.triangles()[i + 1]];
            int c = welded.vertexOf()[soup.triangles()[i + 2]];
            if (a != b && b != c && c != a) {
                corners[count++] = a;
                corners[count++] = b;
                corners[count++] = c;
            }
        }
        if (count == 0) {
            throw new IllegalArgumentException("the mesh has no triangle");
        }
        return new WeldedShape(new TriangleMesh(welded.xyz(), Arrays.copyOf(corners, count)));
    }

    private static int[] sorted(double[] keys) {
        Integer[] order = new Integer[keys.length];
        Arrays.setAll(order, i -> i);
        Arrays.sort(order, (a, b) -> Double.compare(keys[a], keys[b]));
        return Arrays.stream(order).mapToInt(Integer::intValue).toArray();
    }

    /** Two shapes with different counts are never found congruent. */
    public int vertexCount() {
        return mesh.vertexCount();
    }

    public int triangleCount() {
        return mesh.triangleCount();
    }

    /** First place in {@link #byRadius} with at least this radius. */
    int firstFrom(double least) {
        int low = 0;
        int high = byRadius.length;
        while (low < high) {
            int middleIndex = low + high >>> 1;
            if (radius[byRadius[middleIndex]] < least) {
                low = middleIndex + 1;
            } else {
                high = middleIndex;
            }
        }
        return low;
    }

    /** How many vertices are as far from the middle as {@code v}, give or take {@code within}. */
    int alike(int v, double within) {
        return firstFrom(Math.nextUp(radius[v] + within)) - firstFrom(radius[v] - within);
    }
}
