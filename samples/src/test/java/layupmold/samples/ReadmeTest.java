package layupmold.samples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import layupmold.api.ContractJson;
import layupmold.api.recipe.KitRecipe;
import layupmold.api.recipe.MoldRecipe;
import layupmold.geometry.kit.KitSpec;
import layupmold.geometry.recipe.Recipe;
import org.junit.jupiter.api.Test;

/** The README's recipe says what the code's defaults say. */
class ReadmeTest {

    @Test
    void recipeByExampleHoldsTheDefaults() throws Exception {
        MoldRecipe shown = recipe();
        Recipe defaults = Recipe.defaults();
        assertEquals(defaults.releaseMm(), shown.releaseMm());
        assertEquals(defaults.tool().name(), shown.tool().name());
        assertEquals(defaults.hold().name(), shown.hold().name());
        assertEquals(defaults.unit().name(), shown.unit().name());
        assertEquals(defaults.body().kind().name(), shown.body().kind().name());
        assertEquals(defaults.body().wallMm(), shown.body().wallMm());
        assertEquals(defaults.openings().kind().name(), shown.openings().kind().name());
        assertEquals(defaults.openings().plugHeightMm(), shown.openings().plugHeightMm());
        assertEquals(defaults.openings().plugDraftDeg(), shown.openings().plugDraftDeg());
        assertEquals(defaults.body().feet(), shown.body().feet());
        assertEquals(defaults.body().ribMm(), shown.body().ribMm());
        assertEquals(defaults.body().notches().count(), shown.body().notches().count());
        assertEquals(defaults.body().notches().widthMm(), shown.body().notches().widthMm());
        assertEquals(defaults.body().notches().depthMm(), shown.body().notches().depthMm());
        assertEquals(defaults.body().notches().heightMm(), shown.body().notches().heightMm());
        assertEquals(defaults.body().screws().count(), shown.body().screws().count());
        assertEquals(defaults.body().screws().diameterMm(), shown.body().screws().diameterMm());
        assertEquals(defaults.flange().widthMm(), shown.flange().widthMm());
        assertEquals(defaults.flange().draftDeg(), shown.flange().draftDeg());
        assertEquals(defaults.flange().riseMm(), shown.flange().riseMm());
        assertEquals(defaults.flange().edgeRadiusMm(), shown.flange().edgeRadiusMm());
        assertEquals(defaults.flange().trimLineDepthMm(), shown.flange().trimLineDepthMm());
        assertEquals(defaults.fillet().fill(), shown.fillet().fill());
        assertEquals(defaults.layup().fibreWeightFraction(), shown.layup().fibreWeightFraction());
        assertEquals(defaults.layup().matrixDensity(), shown.layup().matrixDensity());
        assertEquals(defaults.layup().finishCoatMm(), shown.layup().finishCoatMm());
        assertEquals(defaults.printer().bedXMm(), shown.printer().bedXMm());
        assertEquals(defaults.printer().nozzleMm(), shown.printer().nozzleMm());
        assertEquals(defaults.printer().material().name(), shown.printer().material().name());
        assertEquals(defaults.inspect().leastDraftDeg(), shown.inspect().leastDraftDeg());
        assertEquals(defaults.inspect().infillShare(), shown.inspect().infillShare());
        assertEquals(defaults.inspect().cureTemperatureC(), shown.inspect().cureTemperatureC());
    }

    @Test
    void theKitIsTheDefault() throws Exception {
        KitRecipe shown = recipe().kit();
        KitSpec defaults = KitSpec.defaults();
        assertEquals(defaults.marginMm(), shown.marginMm());
        assertEquals(defaults.rollWidthMm(), shown.rollWidthMm());
        assertEquals(defaults.clearanceMm(), shown.clearanceMm());
        assertEquals(defaults.paper().name(), shown.paper().name());
        assertEquals(defaults.resin().name(), shown.resin().like().name().toLowerCase().replace('_', ' '));
        assertEquals(defaults.coatResin().name(), shown.coatResin().like().name().toLowerCase().replace('_', ' '));
        assertEquals(defaults.lossShare(), shown.lossShare());
        assertEquals(defaults.workshopC(), shown.workshopC());
        assertEquals(defaults.spreadGramsPerMin(), shown.spreadGramsPerMin());
        assertEquals(defaults.finishCoats(), shown.finishCoats());
    }

    @Test
    void pliesAreTheDefaults() throws Exception {
        var shown = recipe().layup().plies();
        var defaults = Recipe.defaults().layup().plies();
        assertEquals(defaults.size(), shown.size());
        for (int i = 0; i < shown.size(); i++) {
            assertEquals(defaults.get(i).weave().name(), shown.get(i).weave().name());
            assertEquals(defaults.get(i).arealWeightGsm(), shown.get(i).arealWeightGsm());
            assertEquals(defaults.get(i).fibreDensity(), shown.get(i).fibreDensity());
            assertEquals(defaults.get(i).angleDeg(), shown.get(i).angleDeg());
        }
    }

    @Test
    void theFilletIsAskedForAsTheContractHasIt() throws Exception {
        MoldRecipe shown = recipe("<!-- recipe with fillet -->");
        assertEquals(true, shown.fillet().fill());
        assertEquals(1.5, shown.fillet().radiusMm());
    }

    private static MoldRecipe recipe() throws Exception {
        return recipe("<!-- recipe -->");
    }

    private static MoldRecipe recipe(String mark) throws Exception {
        String readme = Files.readString(Path.of("..", "README.md"));
        Matcher block = Pattern.compile(mark + "\\s*```json\\s*(\\{.*?\\})\\s*```", Pattern.DOTALL)
                .matcher(readme);
        assertTrue(block.find());
        return ContractJson.read(block.group(1).getBytes(StandardCharsets.UTF_8), MoldRecipe.class);
    }
}
