package layupmold.geometry.inspect;

import java.util.stream.IntStream;
import layupmold.geometry.MoldRegion;
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

    /** Tries directions on a spiral, then around the best; at most about {@value #DIRECTIONS} × {@value #SAMPLES} rays. */
    static OtherPull search(MeasuredSolid solid) {
        IntStream tool = IntStream.range(0, solid.mesh().triangleCount()).filter(t -> isTool(solid, t));
        Scene scene = new Scene(solid, TriangleBvh.of(Undercut.part(solid.mesh(), tool)),
                SurfaceSamples.of(solid.mesh(), solid.areas(), t -> isTool(solid, t), SAMPLES));
        Vector3d up = new Vector3d(0, 0, 1);
        double present = scene.undercut(up, Double.POSITIVE_INFINITY);
        Tried best = scene.better(new Tried(up, present), spiral());
        double step = Math.toRadians(WIDEST_DEG) / Math.sqrt(DIRECTIONS);
        for (int i = 0; i < REFINEMENTS; i++, step /= 2) {
            best = scene.better(best, around(best.direction, step));
        }
        return new OtherPull(best.direction, best.undercutMm2, present);
    }

    private record Tried(Vector3d direction, double undercutMm2) {
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
        Vector3d[] directions = new Vector3d[8];
        for (int i = 0; i < 8; i++) {
            double a = Math.PI / 4 * i;
            directions[i] = new Vector3d(centre).fma(step * Math.cos(a), u).fma(step * Math.sin(a), v).normalize();
        }
        return directions;
    }

    private record Scene(MeasuredSolid solid, TriangleBvh roofs, SurfaceSamples samples) {

        /** The direction with the least undercut if it is less than before, the first of equals. */
        Tried better(Tried before, Vector3d[] directions) {
            double[] areas = new double[directions.length];
            Parallel.forRanges(directions.length, 1,
                    (chunk, from, to) -> areas[from] = undercut(directions[from], before.undercutMm2));
            Tried best = before;
            for (int i = 0; i < areas.length; i++) {
                if (areas[i] < best.undercutMm2 - 1e-9) {
                    best = new Tried(directions[i], areas[i]);
                }
            }
            return best;
        }

        /** Undercut along a direction; stops counting beyond {@code enough}. */
        double undercut(Vector3d d, double enough) {
            double[] normals = solid.normals();
            double[] xyz = samples.xyz;
            double lift = Undercut.CLEARANCE_MM;
            double area = 0;
            for (int s = 0; s < samples.count() && area <= enough; s++) {
                int n = 3 * samples.triangle[s];
                boolean held = normals[n] * d.x + normals[n + 1] * d.y + normals[n + 2] * d.z < 0
                        || roofs.isHit(xyz[3 * s] + lift * normals[n], xyz[3 * s + 1] + lift * normals[n + 1],
                                xyz[3 * s + 2] + lift * normals[n + 2], d.x, d.y, d.z, 0, -1);
                area += held ? samples.weight[s] : 0;
            }
            return area;
        }
    }
}
