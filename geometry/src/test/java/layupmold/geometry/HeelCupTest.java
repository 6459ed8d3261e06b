package layupmold.geometry;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import layupmold.geometry.mesh.io.PartFile;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.testparts.HeelCup;
import org.joml.Vector3d;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * A perimeter that turns from level to running up the pull and back: skirt and wall turn with it, without folds, which
 * would leave fins on the mold.
 */
class HeelCupTest {

    @ParameterizedTest
    @CsvSource({"10, 3, 0.8", "0, 2.1, 1", "15, 4, 1", "-10, 2.3, 1.2"})
    void theWallHasNoFins(double cutMm, double stepMm, double wide) {
        Recipe recipe = Recipe.defaults().withPull(new Vector3d(0, 0, 1));
        PartFile part = new PartFile(HeelCup.cutAt(cutMm, stepMm, wide), "stl", null, List.of());
        MoldOutcome outcome = MoldPipeline.make(part, recipe, (stage, done) -> { });
        MoldOutcome.Mold mold = assertInstanceOf(MoldOutcome.Mold.class, outcome, outcome::toString);
        assertEquals(List.of(), mold.report().wall().thinRegions());
        assertTrue(mold.report().findings().stream().noneMatch(f -> f.code().startsWith("trim-mark")),
                mold.report().findings()::toString);
    }
}
