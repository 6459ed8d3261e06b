package layupmold.geometry.inspect;

import java.util.stream.IntStream;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.parallel.Parallel;

/**
 * Which samples of the surface that carries cloth cannot move along +z: those that face away from it, and those with a
 * part of the solid above them.
 *
 * <p>Only triangles that face down can be entered from below, so rays are cast against those alone, and only where one
 * of them lies above in plan: a mold without any costs nothing. Rays start {@value #CLEARANCE_MM} mm off the surface, so that an upright wall is not its own shadow.
 */
final class Undercut {

    static final double CLEARANCE_MM = 0.005;

    /** Sine of 0.05°: less is noise of 32-bit coordinates on an upright wall. */
    private static final double FACING_AWAY = -8.7e-4;
    private static final int SAMPLES = 100_000;
    private static final int GRAIN = 4096;

    final MeasuredSolid solid;
    final SurfaceSamples samples;
    /** 0 free, 1 facing away, 2 shadowed; one a sample. */
    final byte[] state;
    private final TriangleBvh roofs;
    private final Ceiling ceiling;
    private final boolean anyRoof;

    static final byte FACES_AWAY = 1;
    static final byte SHADOWED = 2;

    Undercut(MeasuredSolid solid) {
        this.solid = solid;
        TriangleMesh mesh = solid.mesh();
        this.samples = SurfaceSamples.covering(mesh, solid.areas(), solid::carriesCloth, SAMPLES);
        TriangleMesh down = part(mesh, IntStream.range(0, mesh.triangleCount())
                .filter(t -> solid.normals()[3 * t + 2] < FACING_AWAY && !isBase(t)));
        this.anyRoof = down.triangleCount() > 0;
        this.roofs = TriangleBvh.of(down);
        this.ceiling = new Ceiling(down, mesh.bounds());
        this.state = new byte[samples.count()];
        if (anyRoof) {
            classify();
        }
    }

    /** Triangles {@code chosen} of a mesh on the same vertices. */
    static TriangleMesh part(TriangleMesh mesh, IntStream chosen) {
        int[] corners = mesh.triangles();
        return new TriangleMesh(mesh.xyz(),
                chosen.flatMap(t -> IntStream.of(corners[3 * t], corners[3 * t + 1], corners[3 * t + 2])).toArray());
    }

    private boolean isBase(int triangle) {
        return solid.isIn(triangle, MoldRegion.BASE);
    }

    private void classify() {
        double[] normals = solid.normals();
        Parallel.forRanges(samples.count(), GRAIN, (chunk, from, to) -> {
            for (int s = from; s < to; s++) {
                int n = 3 * samples.triangle[s];
                if (normals[n + 2] < FACING_AWAY) {
                    state[s] = FACES_AWAY;
                } else if (!isFree(samples.xyz[3 * s] + CLEARANCE_MM * normals[n],
                        samples.xyz[3 * s + 1] + CLEARANCE_MM * normals[n + 1],
                        samples.xyz[3 * s + 2] + CLEARANCE_MM * normals[n + 2])) {
                    state[s] = SHADOWED;
                }
            }
        });
    }

    /** Whether nothing of the solid lies above the point. */
    boolean isFree(double x, double y, double z) {
        return ceiling.isBelow(x, y, z) || !roofs.isHit(x, y, z, 0, 0, 1, 0, -1);
    }

    boolean any() {
        for (byte b : state) {
            if (b != 0) {
                return true;
            }
        }
        return false;
    }

    /** Area of the samples in a state. */
    double area(byte wanted) {
        double sum = 0;
        for (int s = 0; s < state.length; s++) {
            sum += state[s] == wanted ? samples.weight[s] : 0;
        }
        return sum;
    }
}
