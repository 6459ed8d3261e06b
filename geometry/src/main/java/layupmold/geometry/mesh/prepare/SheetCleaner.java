package layupmold.geometry.mesh.prepare;

import java.util.stream.IntStream;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;

/** Makes a sheet fit to be walked over: triangles whose directions are rounding noise are collapsed or flipped away. */
public final class SheetCleaner {

    /**
     * @param mesh vertices as they were, some of them unused
     * @param source triangle of the given sheet that each triangle was
     */
    public record Cleaned(TriangleMesh mesh, int[] source) {
    }

    private SheetCleaner() {
    }

    /**
     * @param sheet a manifold, with or without boundary
     * @param heightMm triangles lower than this over their longest side go; the surface moves by no more
     */
    public static Cleaned withoutSlivers(TriangleMesh sheet, double heightMm) {
        int[] all = IntStream.range(0, sheet.triangleCount()).toArray();
        Surface clean = SliverRemover.remove(new Surface(sheet.xyz(), sheet.triangles(), all), EdgeTopology.of(sheet),
                heightMm).surface();
        return new Cleaned(new TriangleMesh(clean.xyz(), clean.triangles()), clean.posted());
    }
}
