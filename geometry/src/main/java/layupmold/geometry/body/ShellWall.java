package layupmold.geometry.body;

import java.util.stream.IntStream;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.bvh.VertexDistance;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.offset.OffsetSurface;
import layupmold.geometry.simplify.Simplifier;
import layupmold.geometry.simplify.SimplifyLimits;

/**
 * The underside of a shell: what lies farther from the tool surface than the wall and is reached from below, contoured
 * on a grid and simplified. It is nowhere nearer than the wall, as measured, and farther by a few hundredths at most,
 * but where it is the nearest that one distance allows: in corners, and under ridges narrower than twice the wall.
 */
final class ShellWall {

    private static final double STEPS_PER_WALL = 3;
    private static final double FINEST_MM = 0.4;
    private static final SimplifyLimits SIMPLIFY = new SimplifyLimits(0.02, 0, 0.005);
    /** For what simplification takes off. */
    private static final double SPARE_MM = 0.03;
    private static final double MORE_MM = 0.005;
    private static final int ATTEMPTS = 4;
    /** The grid ends this far within the outline, so that rounding does not take it across. */
    private static final double INSET_MM = 0.01;

    private ShellWall() {
    }

    /** As thick as a wall may become before it is given up, mm. */
    static double mostMm(double wallMm) {
        return wallMm + 2 * spareMm(wallMm) + ATTEMPTS * MORE_MM;
    }

    private static double finestMm(double wallMm) {
        return Math.max(FINEST_MM, wallMm / STEPS_PER_WALL);
    }

    private static double spareMm(double wallMm) {
        double finest = finestMm(wallMm);
        return SPARE_MM + finest * finest / 8 / wallMm;
    }

    /**
     * @return facing up, its level border taken off, and null if that is not level all along the outline
     * @throws Rejection if no even wall is found
     */
    static LevelBorder under(OffsetSurface tool, double wallMm, CoordinateLattice lattice) {
        TriangleBvh above = TriangleBvh.of(tool.mesh());
        double finest = finestMm(wallMm);
        double spare = spareMm(wallMm);
        double least = 0;
        for (int attempt = 0; attempt < ATTEMPTS; attempt++) {
            LevelBorder under = contour(tool, above, wallMm + spare, finest, lattice);
            if (under == null) {
                return null;
            }
            least = Math.min(least(under.rest(), above), least(tool.mesh(), TriangleBvh.of(under.rest())));
            if (least >= wallMm) {
                return under;
            }
            spare += wallMm - least + MORE_MM;
        }
        throw new Rejection(Finding.error("body", "shell-not-even", "No even wall can be put under this tool surface.")
                .measured(least, wallMm, "mm").at(Place.at(tool.mesh().vertex(tool.outline()[0])))
                .advising("Ask for body.kind = block, or smooth the part where it is rough."));
    }

    private static LevelBorder contour(
            OffsetSurface tool, TriangleBvh above, double level, double finest, CoordinateLattice lattice) {
        DistanceGrid grid = new DistanceGrid(above, tool.mesh().bounds(),
                PlanArea.grow(PlanArea.polygon(Deck.outline(tool)), -INSET_MM), level, finest);
        TriangleMesh surface = VoidSurface.of(grid, level, lattice);
        LevelBorder raw = LevelBorder.split(surface, new byte[surface.triangleCount()], t -> true);
        return raw == null ? null : simplified(raw);
    }

    /** As it is, if simplification would make it cross itself. */
    private static LevelBorder simplified(LevelBorder raw) {
        boolean[] fixed = new boolean[raw.rest().vertexCount()];
        raw.loops().forEach(loop -> IntStream.of(loop).forEach(v -> fixed[v] = true));
        TriangleMesh fewer = Simplifier.simplify(raw.rest(), new int[raw.regions().length], fixed, SIMPLIFY).mesh();
        return SelfIntersections.find(fewer, 1).length > 0 ? raw
                : LevelBorder.of(fewer, new byte[fewer.triangleCount()], raw.z());
    }

    private static double least(TriangleMesh from, TriangleBvh to) {
        return VertexDistance.least(from.xyz(), IntStream.range(0, from.vertexCount()).toArray(), to, null).mm();
    }
}
