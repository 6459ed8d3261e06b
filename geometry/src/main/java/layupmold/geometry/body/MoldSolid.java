package layupmold.geometry.body;

import layupmold.geometry.RigidTransform;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * A closed mold, placed for the printer.
 *
 * @param mesh the solid, facing outward, base on z = 0, centred in plan; coordinates are 32-bit floats
 * @param regions {@link layupmold.geometry.MoldRegion} ordinal of each triangle
 * @param placement from the frame the body was built in to the solid's: a translation
 */
public record MoldSolid(TriangleMesh mesh, byte[] regions, RigidTransform placement) {
}
