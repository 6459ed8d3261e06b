package layupmold.geometry.mesh.prepare;

import java.util.Optional;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;

/**
 * A surface that runs through itself, told once no mold could be made: it may be why, whatever stage then failed. Where
 * a mold can be made all the same, what crosses is not part of its face.
 */
public final class SelfCrossing {

    /** One pair is enough to name a place. */
    private static final int PAIR_LIMIT = 1;

    private SelfCrossing() {
    }

    /** A warning with a place where the part crosses itself, if it does; O(n log n). */
    public static Optional<Finding> in(TriangleMesh part) {
        int[] pairs = SelfIntersections.find(part, PAIR_LIMIT);
        if (pairs.length == 0) {
            return Optional.empty();
        }
        Vector3d at = part.centroid(pairs[0]);
        return Optional.of(Finding.warning("read", "part-crosses-itself",
                "The part's surface runs through itself here, which may be why no mold can be made of it.")
                .at(new Place(at.x, at.y, at.z, -1))
                .advising("Cut off what stands inside in the model, or join both along the line where they meet."));
    }
}
