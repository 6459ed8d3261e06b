package layupmold.geometry.pull;

import java.util.concurrent.TimeUnit;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.testparts.BenchShell;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** Finding the pull direction of a shell whose topology and hierarchy are there, on all cores. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(value = 1, jvmArgsAppend = "-Xmx2g")
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 5, time = 2)
public class PullSearchBenchmark {

    private TriangleBvh bvh;
    private EdgeTopology topology;

    @Setup
    public void prepare(BenchShell shell) {
        bvh = TriangleBvh.of(shell.mesh);
        topology = EdgeTopology.of(shell.mesh);
    }

    @Benchmark
    public PullResult pullSearch(BenchShell shell) {
        return PullSearch.find(shell.mesh, topology, bvh, Recipe.defaults());
    }
}
