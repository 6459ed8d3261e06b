package layupmold.geometry;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import layupmold.geometry.face.FaceResult;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.LongestEdgeBisection;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Matrix4d;
import org.joml.Quaterniond;
import org.joml.Vector3d;

/**
 * The face turned into the frame in which the mold is built: the pull is +z, the face's middle is the origin, and the
 * triangles face the finished part's outside.
 *
 * @param mesh the face
 * @param topology its edges
 * @param perimeter its outer boundary as half-edges, the face on the left
 * @param openings the other boundaries
 * @param fromPart from the posted frame to this one
 */
record FaceFrame(
        TriangleMesh mesh,
        EdgeTopology topology,
        int[] perimeter,
        List<int[]> openings,
        RigidTransform fromPart) {

    /**
     * @param leaving direction in which the part leaves the mold
     * @param outwardAgainstPull true for a cavity, whose face looks against the pull; false for a plug
     */
    static FaceFrame of(FaceResult face, Vector3d leaving, boolean outwardAgainstPull) {
        double[] box = face.mesh().bounds();
        Vector3d middle = new Vector3d(box[0] + box[3], box[1] + box[4], box[2] + box[5]).div(2);
        Matrix4d turn = new Matrix4d().rotate(new Quaterniond().rotationTo(leaving, new Vector3d(0, 0, 1)));
        RigidTransform fromPart = new RigidTransform(turn.translate(middle.negate()));
        TriangleMesh mesh = fromPart.apply(face.mesh());
        // The face's area vector is that of its perimeter, so its z says which way the sheet as a whole looks.
        double upward = 0;
        for (int t = 0; t < mesh.triangleCount(); t++) {
            upward += mesh.areaNormal(t).z;
        }
        if (upward < 0 == outwardAgainstPull) {
            return new FaceFrame(mesh, face.topology(), face.perimeter(), face.openings(), fromPart);
        }
        TriangleMesh flipped = mesh.flipped();
        return new FaceFrame(mesh, face.topology(), face.perimeter(), face.openings(), fromPart).with(flipped);
    }

    /** The same face with no side of its perimeter longer than {@code mostMm}, one for each, allows. */
    FaceFrame withShortSides(double[] mostMm) {
        TriangleMesh shortened = LongestEdgeBisection.shorten(mesh, topology, perimeter, mostMm);
        return shortened == mesh ? this : with(shortened);
    }

    /** The same with other triangles, whose vertices begin with those there were: boundaries are found by them. */
    private FaceFrame with(TriangleMesh changed) {
        EdgeTopology edges = EdgeTopology.of(changed);
        int[] loopOf = new int[changed.vertexCount()];
        List<int[]> loops = new ArrayList<>(openings);
        loops.add(perimeter);
        for (int i = 0; i < loops.size(); i++) {
            for (int h : loops.get(i)) {
                // Where two touch, a vertex says nothing.
                loopOf[topology.from(h)] = loopOf[topology.from(h)] == 0 ? i + 1 : -1;
            }
        }
        for (int[] loop : edges.boundaryLoops()) {
            int i = Arrays.stream(loop).map(h -> loopOf[edges.from(h)]).filter(k -> k > 0).findFirst().orElseThrow();
            loops.set(i - 1, loop);
        }
        return new FaceFrame(
                changed, edges, loops.get(openings.size()), loops.subList(0, openings.size()), fromPart);
    }
}
