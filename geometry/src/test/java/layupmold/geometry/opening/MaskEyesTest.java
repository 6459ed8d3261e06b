package layupmold.geometry.opening;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.face.FaceExtraction;
import layupmold.geometry.face.FaceResult;
import layupmold.geometry.mark.TrimMark;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.MeshLimits;
import layupmold.geometry.mesh.io.MeshReader;
import layupmold.geometry.mesh.prepare.PartCleaner;
import layupmold.geometry.recipe.Keep;
import layupmold.geometry.recipe.Recipe;
import org.joml.Vector3d;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Both eyes of the sample mask, whose rims are full rounds of only six segments: 30° from one to the next. */
class MaskEyesTest {

    private static final Path MASK = Path.of("../samples/heron/mask.stl");

    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void bothEyesAreClosedAlikeAlsoInAMirror(boolean mirrored) throws IOException {
        TriangleMesh mesh = PartCleaner.clean(
                MeshReader.read(Files.readAllBytes(MASK), "mask.stl", MeshLimits.defaults()), Recipe.defaults()).mesh();
        Vector3d pull = new Vector3d(0, 0.28, -0.96).normalize();
        TriangleMesh part = mirrored ? mirrored(mesh) : mesh;
        FaceResult face = FaceExtraction.extract(part, EdgeTopology.of(part), pull, new Keep.Outer());
        assertEquals(2, face.openings().size());
        for (int[] eye : face.openings()) {
            // A loop that changes from one edge of the round to another leaves the others' surface by half the wall
            // and more: 1.1 to 1.4 mm. The eyes themselves, on a sunken socket, are flat within 0.7 mm.
            double flatness = OpeningLoop.of(face.mesh(), face.topology(), eye).flatness();
            assertTrue(flatness < 0.8, "the loop leaves its plane by " + flatness + " mm");
        }
        TrimMark mark = new TrimMark(0, 0.9, 0.3);
        assertClosedAlike(face, mark);
        assertClosedAlike(face, mark.reversed());
    }

    private static void assertClosedAlike(FaceResult face, TrimMark mark) {
        CappedFace capped = OpeningCapper.cap(
                face.mesh(), face.topology(), face.openings(), face.perimeter(), new TrimMark[] {mark, mark});
        assertEquals(0, SelfIntersections.find(capped.mesh(), TriangleBvh.of(capped.mesh()), 1).length);
        assertEquals(1, EdgeTopology.of(capped.mesh()).boundaryLoops().size());
        for (Cap cap : capped.caps()) {
            // The face turns down the rim and meets the cap about square, so that tangency is not to be had.
            assertEquals(CapShape.MEMBRANE, cap.shape());
        }
        assertEquals(0, capped.findings().size(), capped.findings().toString());
        // The eyes are mirror images by design; their meshes, and so their loops, are not.
        assertEquals(capped.caps().get(0).areaMm2(), capped.caps().get(1).areaMm2(), 0.06 * capped.caps().get(0).areaMm2());
    }

    private static TriangleMesh mirrored(TriangleMesh mesh) {
        double[] xyz = mesh.xyz().clone();
        for (int i = 0; i < xyz.length; i += 3) {
            xyz[i] = -xyz[i];
        }
        return new TriangleMesh(xyz, mesh.triangles()).flipped();
    }
}
