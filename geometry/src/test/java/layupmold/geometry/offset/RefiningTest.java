package layupmold.geometry.offset;

import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import layupmold.geometry.MoldOutcome;
import layupmold.geometry.MoldPipeline;
import layupmold.geometry.Progress;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.MeshLimits;
import layupmold.geometry.mesh.io.MeshReader;
import layupmold.geometry.mesh.io.PartFile;
import layupmold.geometry.recipe.InspectSpec;
import layupmold.geometry.recipe.Recipe;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class RefiningTest {

    private static final Path FOREARM = Path.of("..", "samples", "heron", "forearm-left.stl");
    /** Where all that folds is contoured, these molds have 133,000 and 142,000 triangles; with single places mended 63,000. */
    private static final int MOST_TRIANGLES = 80_000;

    /**
     * In the first size the surface crosses itself at one place once its folds are cut off, in the other when places that
     * miss are contoured. That place is mended; what lies elsewhere keeps the face's own triangles.
     */
    @ParameterizedTest
    @ValueSource(doubles = {0.8, 0.8 + 0.4 / 12})
    void crossingsAtOnePlaceAreMendedThere(double size) throws IOException {
        TriangleMesh part = MeshReader.read(Files.readAllBytes(FOREARM), "forearm-left.stl", MeshLimits.defaults()).mesh();
        TriangleMesh sized =
                new TriangleMesh(Arrays.stream(part.xyz()).map(x -> size * x).toArray(), part.triangles());

        MoldOutcome outcome =
                MoldPipeline.make(new PartFile(sized, "stl-binary", null, List.of()), Recipe.defaults(), Progress.SILENT);

        MoldOutcome.Mold mold = assertInstanceOf(MoldOutcome.Mold.class, outcome);
        assertTrue(mold.solid().triangleCount() < MOST_TRIANGLES, mold.solid().triangleCount() + " triangles");
        assertTrue(mold.report().offset().maxDeviationMm() <= InspectSpec.LEAST_TOLERANCE_MM);
    }
}
