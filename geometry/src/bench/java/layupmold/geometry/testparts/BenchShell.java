package layupmold.geometry.testparts;

import layupmold.geometry.mesh.TriangleMesh;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;

/** A spherical cap shell of 75°, with about as many triangles as the parameter says. */
@State(Scope.Benchmark)
public class BenchShell {

    @Param({"10000", "100000", "1000000"})
    public int triangles;

    public TriangleMesh mesh;

    /** Both walls and the rim have about 0.83 triangles for every squared segment. */
    @Setup
    public void build() {
        mesh = ClosedForms.sphericalCap(120, 75, 3, (int) Math.round(Math.sqrt(triangles / 0.83))).mesh();
    }
}
