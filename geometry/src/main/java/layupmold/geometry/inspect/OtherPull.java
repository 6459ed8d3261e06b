package layupmold.geometry.inspect;

import java.util.Arrays;
import java.util.stream.IntStream;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.bvh.RayHit;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.congruence.Isometry;
import layupmold.geometry.parallel.Parallel;
import org.joml.Vector3d;

/**
 * The direction within 60° of the present pull that leaves the least of the tool surface undercut. Flange and body
 * would be made anew for another pull, so only tool and caps count, as undercut and as what casts the shadow.
 *
 * @param direction unit vector; in the mold frame the present pull is (0, 0, 1)
 * @param undercutMm2 undercut tool area along it
 * @param presentMm2 undercut tool area along the present pull, measured the same way
 */
public record OtherPull(Vector3d direction, double undercutMm2, double presentMm2) {

    private static final int SAMPLES = 1000;
    private static final int DIRECTIONS = 100;
    private static final double WIDEST_DEG = 60;
    private static final int REFINEMENTS = 4;

    /** Undercut area that the other direction would spare. */
    public double gainMm2() {
        return presentMm2 - undercutMm2;
    }

    /** The same in another frame. */
    OtherPull in(Isometry frame) {
        return new OtherPull(frame.applyToDirection(direction), undercutMm2, presentMm2);
    }

    /** Tries directions on a spiral, then around the best; about {@value #DIRECTIONS} × {@value #SAMPLES} rays. */
    static OtherPull search(MeasuredSolid solid) {
        IntStream tool = IntStream.range(0, solid.mesh().triangleCount()).filter(t -> isTool(solid, t));
        Scene scene = new Scene(solid, TriangleBvh.of(Undercut.part(solid.mesh(), tool)),
                SurfaceSamples.of(solid.mesh(), solid.areas(), t -> isTool(solid, t), SAMPLES));
        double present = scene.undercut(new Vector3d(0, 0, 1));
        Vector3d[] tried = spiral();
        Vector3d best = scene.best(tried);
        double step = Math.toRadians(WIDEST_DEG) / Math.sqrt(DIRECTIONS);
        for (int i = 0; i < REFINEMENTS; i++, step /= 2) {
            best = scene.best(around(best, step));
        }
        return new OtherPull(best, scene.undercut(best), present);
    }

    private static boolean isTool(MeasuredSolid solid, int t) {
        return solid.isIn(t, MoldRegion.TOOL) || solid.isIn(t, MoldRegion.CAP);
    }

    private static Vector3d[] spiral() {
        Vector3d[] directions = new Vector3d[DIRECTIONS];
        double golden = Math.PI * (3 - Math.sqrt(5));
        double lowest = Math.cos(Math.toRadians(WIDEST_DEG));
        for (int i = 0; i < DIRECTIONS; i++) {
            double z = 1 - (1 - lowest) * i / (DIRECTIONS - 1);
            double r = Math.sqrt(1 - z * z);
            directions[i] = new Vector3d(r * Math.cos(golden * i), r * Math.sin(golden * i), z);
        }
        return directions;
    }

    private static Vector3d[] around(Vector3d centre, double step) {
        Vector3d u = centre.cross(Math.abs(centre.x) < 0.6 ? new Vector3d(1, 0, 0) : new Vector3d(0, 1, 0),
                new Vector3d()).normalize();
        Vector3d v = centre.cross(u, new Vector3d());
        Vector3d[] directions = new Vector3d[9];
        directions[0] = centre;
        for (int i = 0; i < 8; i++) {
            double a = Math.PI / 4 * i;
            directions[i + 1] = new Vector3d(centre).fma(step * Math.cos(a), u).fma(step * Math.sin(a), v).normalize();
        }
        return directions;
    }

    private record Scene(MeasuredSolid solid, TriangleBvh roofs, SurfaceSamples samples) {

        /** The direction with the least undercut, the first of equals. */
        Vector3d best(Vector3d[] directions) {
            double[] areas = new double[directions.length];
            Parallel.forRanges(directions.length, 1, (chunk, from, to) -> areas[from] = undercut(directions[from]));
            int best = 0;
            for (int i = 1; i < areas.length; i++) {
                if (areas[i] < areas[best] - 1e-9) {
                    best = i;
                }
            }
            return directions[best];
        }

        double undercut(Vector3d d) {
            RayHit hit = new RayHit();
            double area = 0;
            for (int s = 0; s < samples.count(); s++) {
                int n = 3 * samples.triangle[s];
                double nx = solid.normals()[n];
                double ny = solid.normals()[n + 1];
                double nz = solid.normals()[n + 2];
                boolean away = nx * d.x + ny * d.y + nz * d.z < 0;
                if (!away) {
                    double lift = Undercut.CLEARANCE_MM;
                    roofs.firstHit(samples.xyz[3 * s] + lift * nx, samples.xyz[3 * s + 1] + lift * ny,
                            samples.xyz[3 * s + 2] + lift * nz, d.x, d.y, d.z, 0, Double.POSITIVE_INFINITY, -1, hit);
                }
                area += away || hit.triangle >= 0 ? samples.weight[s] : 0;
            }
            return area;
        }
    }
}
