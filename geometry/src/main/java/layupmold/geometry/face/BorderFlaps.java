package layupmold.geometry.face;

import java.util.Arrays;
import org.joml.Vector3d;

/** Takes off what hangs over from a border that zigzags: triangles that look along the pull. */
final class BorderFlaps {

    /** Cosine to the pull from which a triangle at such a border hangs over. */
    private static final double FLAP = Math.sin(Math.toRadians(20));
    private static final int PASSES = 8;

    private BorderFlaps() {
    }

    /**
     * The face without its flaps; all of it if that would leave a hole. O(n) a pass.
     *
     * @param scaleMm see {@link Zigzags}
     * @param pull unit vector
     */
    static FaceMesh without(FaceMesh face, double scaleMm, Vector3d pull) {
        FaceMesh left = face;
        for (int pass = 0; pass < PASSES; pass++) {
            boolean[] kept = new boolean[left.source().length];
            Arrays.fill(kept, true);
            if (!drop(left, scaleMm, pull, kept)) {
                break;
            }
            left = rest(left, kept);
        }
        return left.topology().boundaryLoops().size() == face.topology().boundaryLoops().size() ? left : face;
    }

    private static boolean drop(FaceMesh face, double scaleMm, Vector3d pull, boolean[] kept) {
        boolean any = false;
        for (int[] loop : face.topology().boundaryLoops()) {
            double[] share = Zigzags.shares(face, loop, Zigzags.lengths(face, loop), scaleMm);
            for (int i = 0; share != null && i < loop.length; i++) {
                Vector3d normal = face.mesh().areaNormal(loop[i] / 3);
                if (share[i] > 0 && normal.dot(pull) > FLAP * normal.length()) {
                    kept[loop[i] / 3] = false;
                    any = true;
                }
            }
        }
        return any;
    }

    private static FaceMesh rest(FaceMesh face, boolean[] kept) {
        return FaceMesh.of(face.mesh(), kept, face.mesh().areas()).within(face.source());
    }
}
