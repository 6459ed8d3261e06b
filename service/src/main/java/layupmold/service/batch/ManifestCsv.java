package layupmold.service.batch;

import java.io.IOException;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.util.List;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * A manifest as a table (RFC 4180) turned into the JSON form, so that both are checked alike. Columns: {@code part},
 * {@code file}, {@code mirror_of}, {@code quantity}, {@code description} (for people, not read), {@code recipe} (JSON),
 * and {@code recipe.printer.bedXMm} and the like for single fields.
 */
final class ManifestCsv {

    private static final String RECIPE = "recipe";
    /** Deeper than any recipe, and than a column's name may lead. */
    private static final int DEEPEST = 8;
    private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

    private ManifestCsv() {
    }

    static ObjectNode toJson(String csv) {
        ObjectNode manifest = NODES.objectNode();
        ArrayNode parts = manifest.putArray("parts");
        String plain = csv.startsWith("\uFEFF") ? csv.substring(1) : csv;
        try (CSVParser rows = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true)
                .setIgnoreEmptyLines(true).setTrim(true).get().parse(new StringReader(plain))) {
            for (CSVRecord row : rows) {
                parts.add(part(row, rows.getHeaderNames()));
            }
        } catch (IOException | IllegalArgumentException | UncheckedIOException e) {
            throw invalid("The manifest cannot be read as CSV: " + e.getMessage());
        }
        return manifest;
    }

    private static ObjectNode part(CSVRecord row, List<String> columns) {
        if (!row.isConsistent()) {
            throw invalid("Row " + row.getRecordNumber() + " of the manifest has " + row.size() + " fields, its header "
                    + columns.size() + ".");
        }
        ObjectNode part = NODES.objectNode();
        for (String column : columns) {
            String value = row.get(column);
            if (value.isEmpty()) {
                continue;
            }
            switch (column) {
                case "part" -> part.put("name", value);
                case "file" -> part.put("file", value);
                case "mirror_of" -> part.put("mirrorOf", value);
                case "quantity" -> part.set("quantity", scalar(value));
                case "description" -> { }
                case RECIPE -> RecipeLayers.lay(recipeOf(part), object(value, row));
                default -> putField(part, column, value);
            }
        }
        return part;
    }

    private static ObjectNode recipeOf(ObjectNode part) {
        return part.withObjectProperty(RECIPE);
    }

    private static void putField(ObjectNode part, String column, String value) {
        String[] path = column.split("\\.");
        if (path.length < 2 || path.length > DEEPEST || !path[0].equals(RECIPE)) {
            throw invalid("The manifest has an unknown column \"" + column.substring(0, Math.min(100, column.length()))
                    + "\".");
        }
        ObjectNode at = recipeOf(part);
        for (int i = 1; i < path.length - 1; i++) {
            at = at.withObjectProperty(path[i]);
        }
        String field = path[path.length - 1];
        at.set(field, field.equals("title") ? NODES.stringNode(value) : scalar(value));
    }

    private static JsonNode scalar(String text) {
        return text.matches("-?[0-9]+") && text.length() < 10 ? NODES.numberNode(Integer.parseInt(text))
                : text.matches("-?[0-9]+(\\.[0-9]+)?([eE][+-]?[0-9]{1,3})?")
                        ? NODES.numberNode(Double.parseDouble(text)) : NODES.stringNode(text);
    }

    private static ObjectNode object(String json, CSVRecord row) {
        try {
            if (JsonMapper.shared().readTree(json) instanceof ObjectNode object) {
                return object;
            }
        } catch (JacksonException e) {
            // Told below.
        }
        throw invalid("Row " + row.getRecordNumber() + " of the manifest has a recipe that is not a JSON object.");
    }

    private static ProblemException invalid(String detail) {
        return new ProblemException(ProblemKind.SUIT_INVALID, detail);
    }
}
