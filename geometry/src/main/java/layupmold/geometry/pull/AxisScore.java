package layupmold.geometry.pull;

import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.parallel.Parallel;
import org.joml.Vector3d;

/**
 * How well a part opens along an axis, either way round.
 *
 * <p>A thin shell leaves a mold if its outer wall is seen against the pull and its inner wall along it: the score is the
 * share of the surface seen from neither end, plus a small price for walls without draft, less a small bonus for facing
 * the axis, which picks the middle where many axes hide nothing.
 */
final class AxisScore {

    private static final double FACING_BONUS = 0.03;
    private static final double DRAFTLESS_PRICE = 0.1;
    /** Walls this near to the axis are taken to face whichever end sees them. */
    private static final double UPRIGHT = Math.sin(Math.toRadians(0.3));
    private static final int GRAIN = 256;

    private final TriangleBvh bvh;
    private final SurfaceSamples samples;
    private final NormalSpread normals;
    private final boolean bothSides;
    private final double size;

    /** @param bothSides true if the mesh is a sheet, whose back counts as its inner wall */
    AxisScore(TriangleMesh mesh, TriangleBvh bvh, NormalSpread normals, int sampleCount, boolean bothSides) {
        this.bvh = bvh;
        this.samples = SurfaceSamples.of(mesh, sampleCount);
        this.normals = normals;
        this.bothSides = bothSides;
        double[] box = mesh.bounds();
        this.size = new Vector3d(box[3] - box[0], box[4] - box[1], box[5] - box[2]).length();
    }

    /** Smaller is better. */
    double of(Vector3d axis) {
        return hiddenShare(axis) + DRAFTLESS_PRICE * normals.draftless(axis) - FACING_BONUS * normals.facing(axis);
    }

    /** Share of the surface seen from neither end of the axis. */
    double hiddenShare(Vector3d axis) {
        int[] counts = new int[Parallel.chunkCount(samples.count(), GRAIN)];
        Parallel.forRanges(samples.count(), GRAIN, (chunk, from, to) -> {
            int count = 0;
            for (int i = from; i < to; i++) {
                count += isHidden(axis, i, 1) ? 1 : 0;
                count += bothSides && isHidden(axis, i, -1) ? 1 : 0;
            }
            counts[chunk] = count;
        });
        int hidden = 0;
        for (int count : counts) {
            hidden += count;
        }
        return hidden / (double) (bothSides ? 2 * samples.count() : samples.count());
    }

    /** True if the point's {@code side} (1 front, −1 back) cannot be seen from the end of the axis it faces. */
    private boolean isHidden(Vector3d axis, int i, int side) {
        double along = side * samples.along(i, axis.x, axis.y, axis.z);
        boolean upright = Math.abs(along) < UPRIGHT;
        boolean hidden = isBlocked(axis, i, side, along < 0 ? -1 : 1);
        return hidden && (!upright || isBlocked(axis, i, side, along < 0 ? 1 : -1));
    }

    private boolean isBlocked(Vector3d axis, int i, int side, int way) {
        double[] p = samples.position();
        double[] n = samples.normal();
        double lift = side * 1e-5 * size;
        return bvh.isHit(
                p[3 * i] + lift * n[3 * i], p[3 * i + 1] + lift * n[3 * i + 1], p[3 * i + 2] + lift * n[3 * i + 2],
                way * axis.x, way * axis.y, way * axis.z, 0, samples.triangle()[i]);
    }

    double size() {
        return size;
    }

    SurfaceSamples samples() {
        return samples;
    }
}
