package layupmold.geometry.bvh;

import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import layupmold.geometry.testparts.BenchShell;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** The hierarchy: built, asked for nearest points, and searched for self-intersection. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(value = 1, jvmArgsAppend = "-Xmx2g")
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 5, time = 2)
public class BvhBenchmark {

    private static final int QUERIES = 1000;

    private TriangleBvh bvh;
    private double[] points;

    /** Queries start up to a millimetre off the surface, as those of offset and deviation do. */
    @Setup
    public void prepare(BenchShell shell) {
        bvh = TriangleBvh.of(shell.mesh);
        SplittableRandom random = new SplittableRandom(1);
        points = new double[3 * QUERIES];
        for (int i = 0; i < points.length; i += 3) {
            int v = 3 * random.nextInt(shell.mesh.vertexCount());
            for (int k = 0; k < 3; k++) {
                points[i + k] = shell.mesh.xyz()[v + k] + random.nextDouble(-0.6, 0.6);
            }
        }
    }

    /** The whole hierarchy, on all cores. */
    @Benchmark
    public TriangleBvh build(BenchShell shell) {
        return TriangleBvh.of(shell.mesh);
    }

    /** One query on one core. */
    @Benchmark
    @OperationsPerInvocation(QUERIES)
    public double nearestPoint() {
        NearestPoint nearest = new NearestPoint();
        double sum = 0;
        for (int i = 0; i < points.length; i += 3) {
            bvh.nearest(points[i], points[i + 1], points[i + 2], 1e9, nearest);
            sum += nearest.distance();
        }
        return sum;
    }

    /** Of a mesh that has none, on all cores. */
    @Benchmark
    public int[] selfIntersections(BenchShell shell) {
        return SelfIntersections.find(shell.mesh, bvh, 100);
    }
}
