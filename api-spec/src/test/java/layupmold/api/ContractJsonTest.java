package layupmold.api;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.List;
import layupmold.api.mold.MoldList;
import layupmold.api.mold.MoldLinks;
import layupmold.api.mold.MoldResource;
import layupmold.api.mold.MoldStatus;
import layupmold.api.mold.PostedPart;
import layupmold.api.problem.FieldError;
import layupmold.api.problem.Problem;
import layupmold.api.recipe.LayupRecipe;
import layupmold.api.recipe.MoldRecipe;
import layupmold.api.recipe.PlyRecipe;
import layupmold.api.recipe.WeaveKind;
import org.junit.jupiter.api.Test;

class ContractJsonTest {

    private static String text(Object record) {
        return new String(ContractJson.write(record), StandardCharsets.UTF_8);
    }

    private static <T> T read(String json, Class<T> type) throws IOException {
        return ContractJson.read(json.getBytes(StandardCharsets.UTF_8), type);
    }

    @Test
    void enumsAreLowerCaseWithHyphensBothWays() throws IOException {
        LayupRecipe layup = new LayupRecipe(List.of(new PlyRecipe(WeaveKind.TWILL_2X2, 210.0, 1.78, 45.0, null, null)), null, null, null);
        String json = text(layup);
        assertEquals("{\"plies\":[{\"weave\":\"twill-2x2\",\"arealWeightGsm\":210.0,\"fibreDensity\":1.78,"
                + "\"angleDeg\":45.0}]}", json);
        assertEquals(layup, read(json, LayupRecipe.class));
    }

    @Test
    void anEmptyListStaysAnEmptyList() throws IOException {
        MoldList none = new MoldList(List.of(), null);
        assertEquals("{\"items\":[]}", text(none));
        assertEquals(none, read(text(none), MoldList.class));
    }

    @Test
    void aResourceWithTimesAndAProblemSurvivesTheRoundTrip() throws IOException {
        Problem problem = new Problem("https://layupmold.invalid/problems/x", "X", 422, "d", null,
                List.of(new FieldError("/flange/widthMm", "out-of-range", "too wide")), List.of());
        MoldResource mold = new MoldResource("a", MoldStatus.REJECTED, null, 100, null,
                new PostedPart("beak.stl", 84, "00"), MoldRecipe.defaults(), "11",
                Instant.parse("2026-01-02T03:04:05.678Z"), null, null, null,
                new MoldLinks("/v1/molds/a", null, null, null, null, null, null, null, null, null, null), problem);
        String json = text(mold);
        assertEquals(true, json.contains("\"createdAt\":\"2026-01-02T03:04:05.678Z\""), json);
        assertEquals(mold, read(json, MoldResource.class));
    }

    @Test
    void anUnknownMemberIsAnError() {
        assertThrows(IOException.class, () -> read("{\"widht\":1}", MoldRecipe.class));
    }

    @Test
    void anUnknownWordIsAnError() {
        assertThrows(IOException.class, () -> read("{\"tool\":\"femail\"}", MoldRecipe.class));
    }
}
