package layupmold.samples.heron;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import layupmold.api.ContractJson;
import layupmold.api.batch.SuitManifest;
import layupmold.api.batch.SuitPart;
import layupmold.api.recipe.LayupRecipe;
import layupmold.api.recipe.MoldRecipe;
import layupmold.api.recipe.PlyRecipe;
import layupmold.api.recipe.PrinterRecipe;
import layupmold.api.recipe.WeaveKind;

/** The costume's contents list, as JSON and as a table. */
final class HeronManifest {

    private static final PrinterRecipe LARGE_BED = new PrinterRecipe(500.0, 500.0, 400.0, 0.6, null);

    private HeronManifest() {
    }

    static SuitManifest manifest() {
        List<SuitPart> parts = Arrays.stream(HeronPart.values())
                .map(part -> new SuitPart(part.slug(), part.slug() + ".stl", recipe(part),
                        part.mirrorOf() == null ? null : part.mirrorOf().slug(), 1))
                .toList();
        return new SuitManifest("Walkabout heron", MoldRecipe.defaults(), parts);
    }

    /**
     * The suit's defaults are the service's. Shins and tail name a large printer; the breast asks for a third ply and
     * stays with the default bed, which it does not fit: its report says so.
     */
    private static MoldRecipe recipe(HeronPart part) {
        String title = "Heron: " + part.title().toLowerCase(java.util.Locale.ROOT);
        return switch (part) {
            case BREAST -> recipe(title, threePlies(), null);
            case SHIN_LEFT, SHIN_RIGHT, TAIL -> recipe(title, null, LARGE_BED);
            default -> recipe(title, null, null);
        };
    }

    private static MoldRecipe recipe(String title, LayupRecipe layup, PrinterRecipe printer) {
        return new MoldRecipe(title, null, null, null, null, null, layup, null, null, null, null, null, printer, null, null);
    }

    private static LayupRecipe threePlies() {
        return new LayupRecipe(List.of(ply(0), ply(45), ply(0)), null, null, null);
    }

    private static PlyRecipe ply(double angleDeg) {
        return new PlyRecipe(WeaveKind.TWILL_2X2, 210.0, 1.78, angleDeg, null, null);
    }

    static byte[] json() {
        DefaultIndenter lines = new DefaultIndenter("  ", "\n");
        JsonFactory factory = new JsonFactory();
        StringWriter text = new StringWriter();
        try (JsonParser parser = factory.createParser(ContractJson.write(manifest()));
                JsonGenerator generator = factory.createGenerator(text)) {
            generator.setPrettyPrinter(new DefaultPrettyPrinter().withObjectIndenter(lines).withArrayIndenter(lines));
            while (parser.nextToken() != null) {
                generator.copyCurrentEvent(parser);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return (text + "\n").getBytes(StandardCharsets.UTF_8);
    }

    static byte[] csv() {
        StringBuilder csv = new StringBuilder("part,file,mirror_of,quantity,description\n");
        for (HeronPart part : HeronPart.values()) {
            csv.append(part.slug()).append(',').append(part.slug()).append(".stl,")
                    .append(part.mirrorOf() == null ? "" : part.mirrorOf().slug()).append(",1,\"")
                    .append(part.description()).append("\"\n");
        }
        return csv.toString().getBytes(StandardCharsets.UTF_8);
    }
}
