package layupmold.geometry.body;

import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.RigidTransform;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.LabelledMeshBuilder;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.offset.OffsetSurface;
import layupmold.geometry.recipe.BodySpec;
import org.joml.Matrix4d;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;

/** Stage "body": makes the offset surface a solid that stands on the printer's bed. */
public final class BodyBuilder {

    /** The solid is shifted by whole steps of this, a multiple of any lattice's step. */
    private static final double SHIFT_STEP_MM = 0x1p-4;

    private BodyBuilder() {
    }

    /**
     * What a body takes up in plan around whatever bulges past the perimeter under the border.
     *
     * @return width from the tool surface to the outline, mm
     */
    public static double roomMm(BodySpec spec) {
        return spec.kind() == BodySpec.Kind.SHELL ? ShellBody.roomMm(spec) : spec.wallMm();
    }

    /**
     * Closes {@code surface}, with notches and holes in its border, and places the solid. A block takes O(n log n), a
     * shell some distance queries for each node of a grid near its wall besides.
     *
     * @param lattice the coordinates that the surface has
     * @throws Rejection if a shell's feet or wall do not fit
     */
    public static MoldSolid build(OffsetSurface surface, BodySpec spec, CoordinateLattice lattice) {
        double base = lattice.below(surface.mesh().bounds()[2] - spec.wallMm());
        LevelBorder above = !BorderCuts.areAsked(spec) ? null : LevelBorder.split(
                surface.mesh(), surface.regions(), t -> surface.regions()[t] == MoldRegion.BORDER.ordinal());
        double blockMm3 = volumeOver(surface.mesh(), base);
        return spec.kind() == BodySpec.Kind.SHELL
                ? shell(surface, above, spec, blockMm3, lattice)
                : block(surface, above, spec, base, blockMm3, lattice);
    }

    private static MoldSolid block(OffsetSurface surface, LevelBorder above, BodySpec spec, double base,
            double blockMm3, CoordinateLattice lattice) {
        double[] ring = Deck.outline(surface);
        boolean low = above == null || above.z() - spec.notches().heightMm() - spec.wallMm() < base;
        BorderCuts cuts = low ? BorderCuts.none(ring)
                : BorderCuts.of(ring, spec, above.shadow(), List.of(), lattice);
        Deck deck = low ? Deck.uncut(surface)
                : Deck.cut(above, cuts.outline(), cuts.holes(), spec.notches().heightMm(), lattice);
        LabelledMeshBuilder solid = BlockBody.close(deck, base);
        TriangleMesh mesh = solid.mesh();
        return place(mesh, solid.labels(), new BodyParts(0, cuts.outline().notches().size(), cuts.holes().size(),
                Standing.tipDeg(mesh, PlanArea.polygon(ring)), blockMm3), cuts.findings(spec));
    }

    private static MoldSolid shell(OffsetSurface surface, LevelBorder above, BodySpec spec, double blockMm3,
            CoordinateLattice lattice) {
        ShellBody.Result shell = ShellBody.close(surface, above, spec, lattice);
        List<Finding> findings = new ArrayList<>(shell.cuts().findings(spec));
        findings.add(Finding.info("body", "shell-needs-supports",
                "The shell stands on its feet, so that its underside prints over air.")
                .advising("Print it with supports from the bed; they touch the underside, not the tool surface. A block "
                        + "needs none."));
        TriangleMesh mesh = shell.solid().mesh();
        Geometry soles = PlanArea.PLANE.createMultiPolygon(shell.feet().toArray(Polygon[]::new));
        return place(mesh, shell.solid().labels(), new BodyParts(shell.feet().size(),
                shell.cuts().outline().notches().size(), shell.cuts().holes().size(), Standing.tipDeg(mesh, soles),
                blockMm3), findings);
    }

    /** Volume between an open sheet that faces up and the plane at height {@code z}, mm³; O(n). */
    private static double volumeOver(TriangleMesh sheet, double z) {
        double sum = 0;
        for (int t = 0; t < sheet.triangleCount(); t++) {
            sum += sheet.areaNormal(t).z / 2 * (sheet.centroid(t).z - z);
        }
        return sum;
    }

    /**
     * Centres the solid in plan and sets it on z = 0. Lattice coordinates stay such, so that nothing changes when they
     * become what STL and printers' firmware keep, 32-bit floats; checks that follow see exactly what is written.
     */
    private static MoldSolid place(TriangleMesh mesh, byte[] regions, BodyParts parts, List<Finding> findings) {
        double[] box = mesh.bounds();
        double dx = -Math.rint((box[0] + box[3]) / 2 / SHIFT_STEP_MM) * SHIFT_STEP_MM;
        double dy = -Math.rint((box[1] + box[4]) / 2 / SHIFT_STEP_MM) * SHIFT_STEP_MM;
        double dz = -box[2];
        double[] xyz = mesh.xyz();
        double[] placed = new double[xyz.length];
        for (int i = 0; i < xyz.length; i += 3) {
            placed[i] = (float) (xyz[i] + dx);
            placed[i + 1] = (float) (xyz[i + 1] + dy);
            placed[i + 2] = (float) (xyz[i + 2] + dz);
        }
        return new MoldSolid(new TriangleMesh(placed, mesh.triangles()), regions,
                new RigidTransform(new Matrix4d().translation(dx, dy, dz)), parts, findings);
    }
}
