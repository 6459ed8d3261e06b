package layupmold.geometry.body;

import java.util.List;
import layupmold.geometry.RigidTransform;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * A closed mold, placed for the printer.
 *
 * @param mesh the solid, facing outward, base or soles on z = 0, centred in plan; coordinates are 32-bit floats
 * @param regions {@link layupmold.geometry.MoldRegion} ordinal of each triangle
 * @param placement from the frame the body was built in to the solid's: a translation
 * @param parts what it consists of
 * @param findings what the stage noticed, in the frame the body was built in
 */
public record MoldSolid(
        TriangleMesh mesh, byte[] regions, RigidTransform placement, BodyParts parts, List<Finding> findings) {

    public MoldSolid {
        findings = List.copyOf(findings);
    }
}
