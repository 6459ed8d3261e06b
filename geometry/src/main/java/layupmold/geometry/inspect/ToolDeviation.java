package layupmold.geometry.inspect;

import java.util.function.DoublePredicate;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.finding.Place;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.parallel.Parallel;
import layupmold.geometry.recipe.InspectSpec;
import org.joml.Vector3d;

/**
 * How far the finished tool surface is from where it should be, measured both ways.
 *
 * <p>From the tool: the deviation of a point is its signed distance to the face, counted positive on the side the
 * offset goes to, minus the offset's size. A point nearest to an edge or a vertex may be as far as a mitre goes, up to
 * the mitre's limit: at the offset from the farthest of the planes that meet there. Left out and told apart are points
 * that keep this over a corner so sharp that a mitre misses the tolerance, and points beyond the face's boundary.
 *
 * <p>From the face: every face point moved by the offset must lie on the solid, unless another part of the face is
 * nearer to it than the offset, so that no offset surface can pass there. This finds places that the tool surface left
 * out.
 *
 * <p>Deterministic for any number of threads; about four nearest-point queries a sample.
 */
public final class ToolDeviation {

    /** What the offset stage promises, mm. */
    public static final double TOLERANCE_MM = InspectSpec.LEAST_TOLERANCE_MM;

    private static final int SAMPLES = 60_000;
    private static final int GRAIN = 1024;
    private static final double SPAN_MM = 5 * TOLERANCE_MM;
    /** No mitre reaches farther than this, in offsets. */
    private static final double MITRE_LIMIT = 2.5;

    private final MeasuredSolid solid;
    private final Sheet face;
    private final double offsetMm;
    private final SurfaceSamples toolSamples;
    private final double[] deviation;
    private final byte[] kind;
    private DeviationFigures figures;

    /** The face with what queries on it need. */
    private record Sheet(
            TriangleMesh mesh, IntPredicate isCopied, double[] normals, double[] areas, TriangleBvh bvh,
            FaceFeatures features) {
    }

    private static final byte KEPT = 0;
    private static final byte REACH_LIMITED = 1;
    private static final byte BEYOND = 2;

    private ToolDeviation(MeasuredSolid solid, Sheet face, double offsetMm) {
        this.solid = solid;
        this.face = face;
        this.offsetMm = offsetMm;
        this.toolSamples = SurfaceSamples.of(solid.mesh(), solid.areas(), t -> solid.isIn(t, MoldRegion.TOOL), SAMPLES);
        this.deviation = new double[toolSamples.count()];
        this.kind = new byte[toolSamples.count()];
    }

    /**
     * Measures the triangles of region {@link MoldRegion#TOOL}.
     *
     * @param solid the finished mold
     * @param copied the kept face, in the solid's frame
     * @param offsetMm signed offset along the face's outward normal
     */
    public static ToolDeviation measure(MeasuredSolid solid, CopiedSurface copied, double offsetMm) {
        TriangleMesh face = copied.mesh();
        double[] normals = face.unitNormals();
        FaceFeatures[] features = new FaceFeatures[1];
        TriangleBvh[] bvh = new TriangleBvh[1];
        Parallel.all(
                () -> features[0] = FaceFeatures.of(face, EdgeTopology.of(face), normals),
                () -> bvh[0] = TriangleBvh.of(face));
        Sheet sheet = new Sheet(face, t -> copied.isCopied()[t], normals, face.areas(), bvh[0], features[0]);
        ToolDeviation result = new ToolDeviation(solid, sheet, offsetMm);
        result.measureTool();
        result.figures = result.collect(result.new Cover());
        return result;
    }

    private void measureTool() {
        Parallel.forRanges(toolSamples.count(), GRAIN, (chunk, from, to) -> {
            FaceFeatures features = face.features.fork();
            NearestPoint nearest = new NearestPoint();
            for (int s = from; s < to; s++) {
                measureTool(s, features, nearest);
            }
        });
    }

    private void measureTool(int s, FaceFeatures features, NearestPoint nearest) {
        double x = toolSamples.xyz[3 * s];
        double y = toolSamples.xyz[3 * s + 1];
        double z = toolSamples.xyz[3 * s + 2];
        locate(x, y, z, null, s, features, nearest);
        if (deviation[s] > TOLERANCE_MM && !features.areAll(face.isCopied)) {
            double overFlange = deviation[s];
            locate(x, y, z, face.isCopied, s, features, nearest);
            deviation[s] = Math.min(overFlange, deviation[s]);
        }
        if (features.onBoundary) {
            kind[s] = BEYOND;
        } else if (Math.abs(deviation[s]) <= TOLERANCE_MM && features.mitreExcess(offsetMm) > TOLERANCE_MM) {
            kind[s] = REACH_LIMITED;
        }
    }

    private void locate(double x, double y, double z, IntPredicate asked, int s, FaceFeatures features,
            NearestPoint nearest) {
        face.bvh.nearestAnywhere(x, y, z, Math.abs(offsetMm) + TOLERANCE_MM, asked, nearest);
        features.locate(nearest);
        double dx = x - nearest.x;
        double dy = y - nearest.y;
        double dz = z - nearest.z;
        boolean before = features.facing.dot(dx, dy, dz) * offsetMm >= 0;
        deviation[s] = before ? deviation(nearest.distance(), dx, dy, dz, features)
                : -nearest.distance() - Math.abs(offsetMm);
    }

    /** In front of an edge or a corner the tool may lie anywhere between the round and the mitred offset. */
    private double deviation(double distance, double dx, double dy, double dz, FaceFeatures features) {
        double planned = Math.abs(offsetMm);
        if (distance <= planned) {
            return distance - planned;
        }
        double side = Math.signum(offsetMm);
        double height = features.height(side * dx, side * dy, side * dz);
        return Math.max(0, Math.max(height, distance / MITRE_LIMIT) - planned);
    }

    /** Whether the face point moved by the offset lies nearer to another part of the face. */
    private boolean isUnreached(
            double x, double y, double z, double nx, double ny, double nz, NearestPoint nearest) {
        double reach = Math.abs(offsetMm) - TOLERANCE_MM;
        if (reach <= 0) {
            return false;
        }
        face.bvh.nearest(x + offsetMm * nx, y + offsetMm * ny, z + offsetMm * nz, reach, nearest);
        return nearest.triangle >= 0;
    }

    /** Distances from the moved face to the solid. */
    private final class Cover {
        private final SurfaceSamples samples = SurfaceSamples.of(face.mesh, face.areas, t -> true, SAMPLES);
        /** NaN where the offset cannot reach. */
        private final double[] distance = new double[samples.count()];

        Cover() {
            Parallel.forRanges(samples.count(), GRAIN, (chunk, from, to) -> {
                NearestPoint nearest = new NearestPoint();
                for (int s = from; s < to; s++) {
                    distance[s] = distanceToSolid(s, nearest);
                }
            });
        }

        private double distanceToSolid(int s, NearestPoint nearest) {
            solid.bvh().nearestAnywhere(movedBy(s, 0), movedBy(s, 1), movedBy(s, 2), TOLERANCE_MM, solid::carriesCloth,
                    nearest);
            double distance = nearest.triangle < 0 ? Double.NaN : nearest.distance();
            if (distance < TOLERANCE_MM) {
                return distance;
            }
            int n = 3 * samples.triangle[s];
            double[] xyz = samples.xyz;
            double[] normals = face.normals;
            return isUnreached(xyz[3 * s], xyz[3 * s + 1], xyz[3 * s + 2], normals[n], normals[n + 1], normals[n + 2],
                    nearest) ? Double.NaN : distance;
        }

        private double movedBy(int s, int k) {
            return samples.xyz[3 * s + k] + offsetMm * face.normals[3 * samples.triangle[s] + k];
        }

        double area(DoublePredicate of) {
            return IntStream.range(0, distance.length).filter(s -> of.test(distance[s]))
                    .mapToDouble(s -> samples.weight[s]).sum();
        }

        Place moved(int s) {
            return Place.at(movedBy(s, 0), movedBy(s, 1), movedBy(s, 2));
        }
    }

    private DeviationFigures collect(Cover cover) {
        double[] signed = new double[deviation.length];
        double[] size = new double[deviation.length];
        double[] areas = new double[3];
        for (int s = 0; s < signed.length; s++) {
            areas[kind[s]] += toolSamples.weight[s];
            signed[s] = kind[s] == KEPT ? deviation[s] : Double.NaN;
            size[s] = Math.abs(signed[s]);
        }
        Distribution bySize = new Distribution(size, toolSamples.weight);
        Distribution bySign = new Distribution(signed, toolSamples.weight);
        Distribution byCover = new Distribution(cover.distance, cover.samples.weight);
        int worst = bySize.isEmpty() ? -1 : bySize.sample(bySize.count() - 1);
        int farthest = byCover.isEmpty() ? -1 : byCover.sample(byCover.count() - 1);
        return new DeviationFigures(offsetMm,
                bySize.isEmpty() ? 0 : bySize.mean(), bySize.isEmpty() ? 0 : bySize.quantile(0.95),
                worst < 0 ? 0 : size[worst], worst < 0 ? null : toolSamples.place(worst),
                bySign.histogram(-SPAN_MM, SPAN_MM, 40), areas[REACH_LIMITED], areas[BEYOND],
                farthest < 0 ? 0 : cover.distance[farthest], farthest < 0 ? null : cover.moved(farthest),
                cover.area(d -> d >= TOLERANCE_MM), cover.area(Double::isNaN), TOLERANCE_MM);
    }

    public DeviationFigures figures() {
        return figures;
    }

    /** Greatest signed deviation of each tool triangle, mm; NaN elsewhere. */
    public float[] map() {
        return TriangleMap.of(toolSamples, deviation, (a, b) -> Math.abs(a) >= Math.abs(b) ? a : b, solid.topology(),
                t -> solid.isIn(t, MoldRegion.TOOL));
    }
}
