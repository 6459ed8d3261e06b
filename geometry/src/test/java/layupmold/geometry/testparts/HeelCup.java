package layupmold.geometry.testparts;

import java.util.List;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;
import org.joml.Vector4d;

/** A bowl with a level rim of which a plane along the pull has cut a part off: there the perimeter runs up the pull. */
public final class HeelCup {

    public static final double RADIUS_MM = 40;

    private HeelCup() {
    }

    /**
     * @param cutMm where along y the cut is, from the bowl's middle
     * @param stepMm of the grid that the bowl is triangulated on
     * @param wide its half width along x by the radius
     * @return the cup facing away from its inside, rim up at z = 0
     */
    public static TriangleMesh cutAt(double cutMm, double stepMm, double wide) {
        double room = Math.max(1, wide) * RADIUS_MM + 2 * stepMm;
        Vector3d corner = new Vector3d(room, room, room);
        TriangleMesh whole = IsoSurface.of(p -> new Vector3d(p).div(wide, 1, 1).length() - RADIUS_MM,
                new Vector3d(corner).negate(), corner, stepMm);
        return PlaneCuts.cut(whole, List.of(new Vector4d(0, 0, 1, 0), new Vector4d(0, 1, 0, cutMm)),
                p -> p.z < 0 && p.y < cutMm);
    }
}
