package layupmold.geometry.pull;

import java.util.Arrays;
import layupmold.geometry.bvh.RayHit;
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
 *
 * <p>A solid has no inner wall: what looks along its pull is its back, which the mold does not copy, so that counts as
 * hidden unless it is the flat side that the solid lies on. So a block leaves along one of its axes, though it has no draft
 * then, and not across a corner.
 */
final class AxisScore {

    private static final double FACING_BONUS = 0.03;
    /** A solid's walls are as deep as it is: better it lies than stands. */
    private static final double SOLID_FACING_BONUS = 0.1;
    private static final double DRAFTLESS_PRICE = 0.1;
    /** A solid's material is this deep behind half of its surface, as a share of a square's side of half its area. */
    private static final double SOLID_DEPTH = 0.2;
    /** Walls this near to the axis are taken to face whichever end sees them. */
    private static final double UPRIGHT = Math.sin(Math.toRadians(0.3));
    private static final int GRAIN = 256;

    private final TriangleBvh bvh;
    private final SurfaceSamples samples;
    private final NormalSpread normals;
    private final boolean bothSides;
    private final double size;
    private final boolean solid;

    private AxisScore(TriangleBvh bvh, SurfaceSamples samples, NormalSpread normals, boolean bothSides, double size,
            boolean solid) {
        this.bvh = bvh;
        this.samples = samples;
        this.normals = normals;
        this.bothSides = bothSides;
        this.size = size;
        this.solid = solid;
    }

    /** @param bothSides true if the mesh is a sheet, whose back counts as its inner wall */
    static AxisScore of(TriangleMesh mesh, TriangleBvh bvh, NormalSpread normals, int sampleCount, boolean bothSides) {
        double[] box = mesh.bounds();
        double size = new Vector3d(box[3] - box[0], box[4] - box[1], box[5] - box[2]).length();
        SurfaceSamples samples = SurfaceSamples.of(mesh, sampleCount);
        boolean solid = !bothSides && medianDepth(bvh, samples, size) > SOLID_DEPTH * Math.sqrt(mesh.area() / 2);
        return new AxisScore(bvh, samples, normals, bothSides, size, solid);
    }

    /** The same from so many samples. */
    AxisScore with(TriangleMesh mesh, int sampleCount) {
        return new AxisScore(bvh, SurfaceSamples.of(mesh, sampleCount), normals, bothSides, size, solid);
    }

    /** Smaller is better. */
    double of(Vector3d axis) {
        return lostShare(axis) + DRAFTLESS_PRICE * normals.draftless(axis)
                - (solid ? SOLID_FACING_BONUS : FACING_BONUS) * normals.facing(axis);
    }

    /** Share of the surface that the mold does not copy: the hidden one and a solid's slanted back. */
    double lostShare(Vector3d axis) {
        return hiddenShare(axis) + (solid
                ? Math.min(normals.slantedBack(axis), normals.slantedBack(new Vector3d(axis).negate())) : 0);
    }

    /** How much more of a solid's surface is lost if it leaves against the axis than if along it, as a share. */
    double gain(Vector3d axis) {
        return normals.slantedBack(new Vector3d(axis).negate()) - normals.slantedBack(axis);
    }

    boolean isSolid() {
        return solid;
    }

    private static double medianDepth(TriangleBvh bvh, SurfaceSamples samples, double size) {
        double[] depths = new double[samples.count()];
        Parallel.forRanges(depths.length, GRAIN, (chunk, from, to) -> {
            RayHit hit = new RayHit();
            double[] p = samples.position();
            double[] n = samples.normal();
            for (int i = from; i < to; i++) {
                bvh.firstHit(p[3 * i], p[3 * i + 1], p[3 * i + 2], -n[3 * i], -n[3 * i + 1], -n[3 * i + 2],
                        0, 2 * size, samples.triangle()[i], hit);
                depths[i] = hit.triangle >= 0 ? hit.t : 0;
            }
        });
        Arrays.sort(depths);
        return depths[depths.length / 2];
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
