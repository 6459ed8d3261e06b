package layupmold.geometry.body;

import layupmold.geometry.RigidTransform;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.LabelledMeshBuilder;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.offset.OffsetSurface;
import layupmold.geometry.recipe.BodySpec;
import org.joml.Matrix4d;

/** Stage "body": makes the offset surface a solid that stands on the printer's bed. */
public final class BodyBuilder {

    /** The solid is shifted by whole steps of this, a multiple of any lattice's step. */
    private static final double SHIFT_STEP_MM = 0x1p-4;

    private BodyBuilder() {
    }

    /**
     * Closes {@code surface} and places the solid; O(n).
     *
     * @param lattice the coordinates that the surface has
     * @throws Rejection if the body asked for cannot be made yet
     */
    public static MoldSolid build(OffsetSurface surface, BodySpec spec, CoordinateLattice lattice) {
        if (spec.kind() != BodySpec.Kind.BLOCK) {
            throw new Rejection(Finding.error("body", "body-not-available", "Only block bodies can be made so far.")
                    .advising("Ask for body.kind = block."));
        }
        return place(BlockBody.close(surface, spec.wallMm(), lattice));
    }

    /**
     * Centres the solid in plan and sets it on z = 0. Lattice coordinates stay such, so that nothing changes when they
     * become what STL and printers' firmware keep, 32-bit floats; checks that follow see exactly what is written.
     */
    private static MoldSolid place(LabelledMeshBuilder solid) {
        TriangleMesh mesh = solid.mesh();
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
        return new MoldSolid(new TriangleMesh(placed, mesh.triangles()), solid.labels(),
                new RigidTransform(new Matrix4d().translation(dx, dy, dz)));
    }
}
