package layupmold.geometry.body;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.bvh.VertexDistance;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.flange.FlangedSurface;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.offset.OffsetStage;
import layupmold.geometry.offset.OffsetSurface;
import layupmold.geometry.simplify.CrossingRepair;
import layupmold.geometry.simplify.Simplifier;
import layupmold.geometry.simplify.SimplifyLimits;

/**
 * The underside of a shell: the tool surface, simplified, offset into the mold. It is offset by a little more than the
 * wall, for what simplification and the offset's own tolerance take off it, and by what a measurement finds missing.
 * Costs as much as the offset stage.
 */
final class ShellWall {

    private static final SimplifyLimits SIMPLIFY = new SimplifyLimits(0.02, 0.01, 0.002);
    /** Added to the wall at first. */
    private static final double SPARE_MM = 0.03;
    private static final int ATTEMPTS = 3;

    private ShellWall() {
    }

    /**
     * @return facing as the tool surface does
     * @throws Rejection if there is no such surface
     */
    static TriangleMesh under(OffsetSurface tool, double wallMm, CoordinateLattice lattice) {
        Simplifier.Result fewer = CrossingRepair.repair(Simplifier.simplify(tool.mesh(),
                IntStream.range(0, tool.regions().length).map(t -> tool.regions()[t]).toArray(),
                new boolean[tool.mesh().vertexCount()], SIMPLIFY));
        byte[] regions = new byte[fewer.labels().length];
        for (int t = 0; t < regions.length; t++) {
            regions[t] = (byte) fewer.labels()[t];
        }
        EdgeTopology edges = EdgeTopology.of(fewer.mesh());
        int[] outline = Arrays.stream(edges.boundaryLoops().get(0)).map(edges::from).toArray();
        FlangedSurface sheet = new FlangedSurface(fewer.mesh(), regions, outline, List.of());
        TriangleBvh above = TriangleBvh.of(tool.mesh());
        double spare = SPARE_MM;
        for (int attempt = 0; attempt < ATTEMPTS; attempt++) {
            TriangleMesh under = OffsetStage.offset(sheet, -wallMm - spare, lattice).mesh();
            double least = Math.min(VertexDistance.least(under.xyz(), vertices(under), above).mm(),
                    VertexDistance.least(tool.mesh().xyz(), vertices(tool.mesh()), TriangleBvh.of(under)).mm());
            if (least >= wallMm) {
                return under;
            }
            spare += wallMm - least + SPARE_MM / 3;
        }
        throw new Rejection(Finding.error("body", "shell-not-even",
                "No even wall can be put under this tool surface.").measured(spare, SPARE_MM, "mm")
                .advising("Ask for body.kind = block, or smooth the part where it is rough."));
    }

    private static int[] vertices(TriangleMesh mesh) {
        return IntStream.range(0, mesh.vertexCount()).toArray();
    }
}
