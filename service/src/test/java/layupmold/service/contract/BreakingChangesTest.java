package layupmold.service.contract;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import layupmold.api.ContractDocument;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.dataformat.yaml.YAMLMapper;

/** Clients of the released contract can go on with this one. */
class BreakingChangesTest {

    private static final Path RELEASED = Path.of("..", "api-spec", "released");

    private static JsonNode tree(String yaml) {
        return YAMLMapper.shared().readTree(yaml);
    }

    private static String current() {
        return new String(ContractDocument.yaml(), StandardCharsets.UTF_8);
    }

    @Test
    void nothingIsTakenFromClientsOfTheLastRelease() throws Exception {
        Path last;
        try (Stream<Path> files = Files.list(RELEASED)) {
            last = files.filter(file -> file.toString().endsWith(".yaml")).max(Path::compareTo).orElseThrow();
        }
        List<String> changes = BreakingChanges.between(tree(Files.readString(last)), tree(current()));
        assertTrue(changes.isEmpty(), () -> "since " + last + ":\n" + String.join("\n", changes));
    }

    @Test
    void theSameDocumentBreaksNothing() {
        assertEquals(List.of(), BreakingChanges.between(tree(current()), tree(current())));
    }

    /** Each edits the contract in one place; the place of the edit is the first one after the anchor. */
    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '"', value = {
        "paths:|  /v1/molds/{id}/cancel:|  /v1/molds/{id}/stop:|post /v1/molds/{id}/cancel is gone",
        "operationId: cancelMold|bearer: [submit]|bearer: [admin]|needs other scopes",
        "operationId: listMolds|name: cursor|name: after|no longer takes the parameter cursor",
        "operationId: listMolds|maximum: 200|maximum: 100|has another maximum: 100, not 200",
        "operationId: listMolds|name: limit|\"name: limit\n          required: true\"|now needs the parameter limit",
        "operationId: postMold|'202':|'203':|post /v1/molds 202 is gone",
        "operationId: postMold|application/x-ply: {}|application/x-other: {}|is no longer application/x-ply",
        "    MoldRecipe:|title:|name:|no longer has title",
        "    MoldRecipe:|enum: [mm, cm, m, in]|enum: [mm, cm, m]|allows fewer values",
        "    MoldRecipe:|maxLength: 200|maxLength: 20|has another maxLength",
        "    NewKey:|required: [owner, scopes]|required: [owner, scopes, name]|now needs",
        "    KeyResource:|required: [id, owner, scopes, createdAt]|required: [id, owner, scopes]|no longer always has",
        "    MoldStatus:|cancelled]|cancelled, paused]|has new values"})
    void eachKindOfBreakIsFound(String anchor, String before, String after, String expected) {
        String old = current();
        int at = old.indexOf(before, old.indexOf(anchor));
        assertTrue(at > 0, "the contract has no longer what this test changes: " + before);
        String edited = old.substring(0, at) + after + old.substring(at + before.length());
        List<String> changes = BreakingChanges.between(tree(old), tree(edited));
        assertTrue(changes.stream().anyMatch(change -> change.contains(expected)), changes.toString());
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', value = {
        "operationId: listMolds|maximum: 200|maximum: 500", "    MoldRecipe:|enum: [mm, cm, m, in]|enum: [mm, cm, m, in, ft]",
        "    KeyResource:|required: [id, owner, scopes, createdAt]|required: [id, owner, scopes, createdAt, name]",
        "operationId: listMolds|summary: List molds, newest first|summary: List molds"})
    void whatOnlyGivesMoreIsFine(String anchor, String before, String after) {
        String old = current();
        int at = old.indexOf(before, old.indexOf(anchor));
        assertTrue(at > 0, "the contract has no longer what this test changes: " + before);
        String edited = old.substring(0, at) + after + old.substring(at + before.length());
        assertEquals(List.of(), BreakingChanges.between(tree(old), tree(edited)));
    }
}
