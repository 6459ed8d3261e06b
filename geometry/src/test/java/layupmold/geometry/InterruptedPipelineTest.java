package layupmold.geometry;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.PartFile;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.testparts.ClosedForms;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The stages that take long end in their midst when their thread is interrupted. */
class InterruptedPipelineTest {

    private static final TriangleMesh PART = ClosedForms.sphericalCap(40, 60, 2, 24).mesh();

    @AfterEach
    void clear() {
        Thread.interrupted();
    }

    @ParameterizedTest
    @ValueSource(strings = {"pull", "face", "offset", "inspect"})
    void noStageFollowsTheOneThatWasInterrupted(String interrupted) {
        List<String> stages = new ArrayList<>();
        assertThrows(CancellationException.class, () -> MoldPipeline.make(
                new PartFile(PART, "stl-binary", null, List.of()), Recipe.defaults(), (stage, fraction) -> {
                    stages.add(stage);
                    if (stage.equals(interrupted)) {
                        Thread.currentThread().interrupt();
                    }
                }));
        assertEquals(interrupted, stages.get(stages.size() - 1));
    }
}
