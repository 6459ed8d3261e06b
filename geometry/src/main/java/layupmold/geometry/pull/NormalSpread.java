package layupmold.geometry.pull;

import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;

/** A surface's normals by area, gathered in cells of direction: what one asks of a surface without knowing where. */
final class NormalSpread {

    private static final int CELLS = 24;
    /** Walls steeper than this against the axis have no draft to speak of. */
    private static final double NO_DRAFT = Math.sin(Math.toRadians(1.5));

    /** One over what the cosine of a side that counts as slanted altogether is below 1: at about 40°. */
    private static final double SLANT = 4;

    private final double[] sums;
    private final double[] areas;
    private final double total;

    private NormalSpread(double[] sums, double[] areas, double total) {
        this.sums = sums;
        this.areas = areas;
        this.total = total;
    }

    /** Cells on a cube around the directions; O(n). */
    static NormalSpread of(TriangleMesh mesh) {
        double[] sums = new double[3 * 6 * CELLS * CELLS];
        double[] areas = new double[6 * CELLS * CELLS];
        double total = 0;
        double[] unit = mesh.unitNormals();
        for (int t = 0; t < mesh.triangleCount(); t++) {
            double area = mesh.areaNormal(t).length() / 2;
            int cell = cell(unit[3 * t], unit[3 * t + 1], unit[3 * t + 2]);
            for (int k = 0; k < 3; k++) {
                sums[3 * cell + k] += area * unit[3 * t + k];
            }
            areas[cell] += area;
            total += area;
        }
        return packed(sums, areas, total);
    }

    private static NormalSpread packed(double[] sums, double[] areas, double total) {
        int n = 0;
        for (double a : areas) {
            n += a > 0 ? 1 : 0;
        }
        double[] packedSums = new double[3 * n];
        double[] packedAreas = new double[n];
        for (int cell = 0, i = 0; cell < areas.length; cell++) {
            if (areas[cell] > 0) {
                System.arraycopy(sums, 3 * cell, packedSums, 3 * i, 3);
                packedAreas[i++] = areas[cell];
            }
        }
        return new NormalSpread(packedSums, packedAreas, total);
    }

    private static int cell(double x, double y, double z) {
        double ax = Math.abs(x);
        double ay = Math.abs(y);
        double az = Math.abs(z);
        if (ax >= ay && ax >= az) {
            return cell(x < 0 ? 1 : 0, y / ax, z / ax);
        }
        return ay >= az ? cell(y < 0 ? 3 : 2, x / ay, z / ay) : cell(z < 0 ? 5 : 4, x / az, y / az);
    }

    private static int cell(int side, double u, double v) {
        // A zero normal divides zero by zero; the cast makes its cell 0, and its area is zero.
        int i = Math.min(CELLS - 1, (int) ((u + 1) / 2 * CELLS));
        int j = Math.min(CELLS - 1, (int) ((v + 1) / 2 * CELLS));
        return (side * CELLS + i) * CELLS + j;
    }

    /** Area-weighted mean of |cos| between normals and {@code axis}: 1 for a flat sheet across it, 0 for one along it. */
    double facing(Vector3d axis) {
        double sum = 0;
        for (int i = 0; i < areas.length; i++) {
            sum += Math.abs(sums[3 * i] * axis.x + sums[3 * i + 1] * axis.y + sums[3 * i + 2] * axis.z);
        }
        return sum / total;
    }

    /** Share of the area without draft to either side of {@code axis}. */
    double draftless(Vector3d axis) {
        double sum = 0;
        for (int i = 0; i < areas.length; i++) {
            double along = sums[3 * i] * axis.x + sums[3 * i + 1] * axis.y + sums[3 * i + 2] * axis.z;
            sum += Math.max(0, areas[i] - Math.abs(along) / NO_DRAFT);
        }
        return sum / total;
    }

    /**
     * Share of the area that looks along {@code pull} but not square to it; in part what nearly is, and walls without
     * draft: what a solid would lose besides the side that it lies on.
     */
    double slantedBack(Vector3d pull) {
        double sum = 0;
        for (int i = 0; i < areas.length; i++) {
            double along = sums[3 * i] * pull.x + sums[3 * i + 1] * pull.y + sums[3 * i + 2] * pull.z;
            double slanted = Math.min(along / NO_DRAFT, SLANT * (areas[i] - along));
            sum += Math.max(0, Math.min(areas[i], slanted));
        }
        return sum / total;
    }

    /** The unit normals that most of the area has, at most {@code count}, largest area first. */
    List<Vector3d> flats(int count) {
        return IntStream.range(0, areas.length).boxed()
                .sorted(Comparator.comparingDouble(i -> -areas[i]))
                .limit(count)
                .map(i -> new Vector3d(sums[3 * i], sums[3 * i + 1], sums[3 * i + 2]).normalize())
                .toList();
    }

    /**
     * The axis near {@code start} that the surface faces most: for walls with draft all round it is the normal of the
     * plane that best holds the rim.
     */
    Vector3d mostFaced(Vector3d start) {
        Vector3d axis = new Vector3d(start);
        for (int pass = 0; pass < 60; pass++) {
            Vector3d sum = new Vector3d();
            for (int i = 0; i < areas.length; i++) {
                double along = sums[3 * i] * axis.x + sums[3 * i + 1] * axis.y + sums[3 * i + 2] * axis.z;
                double sign = Math.signum(along);
                sum.add(sign * sums[3 * i], sign * sums[3 * i + 1], sign * sums[3 * i + 2]);
            }
            if (sum.length() < 1e-9 * total) {
                return axis;
            }
            sum.normalize();
            if (sum.distance(axis) < 1e-9) {
                return sum;
            }
            axis.set(sum);
        }
        return axis;
    }
}
