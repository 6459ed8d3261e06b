package layupmold.geometry.drape;

import layupmold.geometry.laminate.MaterialTables;
import layupmold.geometry.recipe.Ply;
import layupmold.geometry.recipe.Weave;
import org.joml.Vector3d;

/**
 * How one ply is to be laid.
 *
 * @param weave how the yarns cross
 * @param warpAngleDeg warp direction at the start point in the mold's plan, degrees from its x axis
 * @param start where the cloth first touches the tool, in the mold's frame; null to search
 * @param stepMm link of the net; 0 to derive it from the tool's area
 * @param lockingDeg shear at which the yarns jam; beyond it the cloth wrinkles
 * @param leastRadiusMm least concave radius the cloth follows; 0 to leave corners unchecked
 */
public record DrapeSpec(
        Weave weave, double warpAngleDeg, Vector3d start, double stepMm, double lockingDeg, double leastRadiusMm) {

    public DrapeSpec {
        if (!(stepMm == 0 || stepMm >= 0.1) || !(lockingDeg > 0 && lockingDeg < 90) || !(leastRadiusMm >= 0)
                || !Double.isFinite(warpAngleDeg)) {
            throw new IllegalArgumentException("a drape needs a step of 0 or at least 0.1 mm, a locking angle between "
                    + "0 and 90°, a least radius of at least 0 and a finite warp angle");
        }
        start = start == null ? null : new Vector3d(start);
    }

    /** The weave's own figures, start searched, step derived. {@code plyMm} is the cured thickness. */
    public static DrapeSpec of(Ply ply, double plyMm) {
        MaterialTables.WeaveFigures figures = MaterialTables.weave(ply.weave());
        return new DrapeSpec(ply.weave(), ply.angleDeg(), null, 0, figures.lockingDeg(),
                figures.leastRadiusPerMm() * plyMm);
    }

    public DrapeSpec withStart(Vector3d point) {
        return new DrapeSpec(weave, warpAngleDeg, point, stepMm, lockingDeg, leastRadiusMm);
    }

    public DrapeSpec withStep(double mm) {
        return new DrapeSpec(weave, warpAngleDeg, start, mm, lockingDeg, leastRadiusMm);
    }

    public DrapeSpec withWarpAngle(double degrees) {
        return new DrapeSpec(weave, degrees, start, stepMm, lockingDeg, leastRadiusMm);
    }
}
