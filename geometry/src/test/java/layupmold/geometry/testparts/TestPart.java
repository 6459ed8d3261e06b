package layupmold.geometry.testparts;

import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.shape.ShellRegion;
import org.joml.Vector3d;

/**
 * A thin shell and the truth about every triangle of it.
 *
 * @param name says how it was made, for failure messages
 * @param mesh closed; may be inside out, noisy, far away, or hold further components if its maker says so
 * @param truth {@link ShellRegion} ordinal of each triangle
 * @param loopOfTriangle for rim triangles the loop they go around (0 = perimeter, 1.. = openings), else -1
 * @param pull unit vector out of the mouth, away from the outer wall: the way the part leaves a female mold. A good
 *     direction, not always the best, and not free of undercuts for parts that close beyond their equator
 * @param leastThicknessMm thinnest place of the wall, ribs and bosses left out
 * @param greatestThicknessMm thickest, likewise
 * @param openings number of openings
 * @param loopLengthsMm length of every loop where the outer wall ends and the rim begins, perimeter first
 */
public record TestPart(
        String name,
        TriangleMesh mesh,
        byte[] truth,
        byte[] loopOfTriangle,
        Vector3d pull,
        double leastThicknessMm,
        double greatestThicknessMm,
        int openings,
        double[] loopLengthsMm) {

    public ShellRegion region(int triangle) {
        return ShellRegion.of(truth[triangle]);
    }

    /** Area of all triangles of one region, mm². */
    public double areaOf(ShellRegion region) {
        double twice = 0;
        for (int t = 0; t < truth.length; t++) {
            if (region(t) == region) {
                twice += mesh.areaNormal(t).length();
            }
        }
        return twice / 2;
    }

    @Override
    public String toString() {
        return name + " (" + mesh.triangleCount() + " triangles)";
    }
}
