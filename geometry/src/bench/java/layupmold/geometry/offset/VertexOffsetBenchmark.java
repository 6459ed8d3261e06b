package layupmold.geometry.offset;

import java.util.concurrent.TimeUnit;
import layupmold.geometry.testparts.BenchShell;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Warmup;

/** Moving all vertices to the offset planes of their triangles, on all cores. */
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(value = 1, jvmArgsAppend = "-Xmx2g")
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 5, time = 2)
public class VertexOffsetBenchmark {

    @Benchmark
    public double[] vertexOffset(BenchShell shell) {
        return VertexOffset.offset(shell.mesh, 0.65);
    }
}
