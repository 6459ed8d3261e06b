package layupmold.service.batch;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.function.Supplier;
import layupmold.service.problem.ProblemException;
import layupmold.service.recipe.ContractSchemas;
import layupmold.service.recipe.RecipeReader;
import layupmold.service.settings.UploadSettings;
import layupmold.service.store.Blob;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.springframework.context.annotation.AnnotationConfigApplicationContext;
import org.springframework.util.unit.DataSize;

/** Manifests and recipes with random damage: they are read or refused as the client's mistake, and nothing else. */
class MutatedManifestsProperties {

    /** What a whole reader may allocate for a few kilobytes. */
    private static final long MOST_ALLOCATED = 64 << 20;
    private static final ThreadMXBean THREADS = (ThreadMXBean) ManagementFactory.getThreadMXBean();
    private static final RecipeReader RECIPES;
    private static final ManifestReader MANIFESTS;
    private static final Map<String, Blob> FILES = Map.of("a.stl", new Blob("0".repeat(64), 84));

    private static final String JSON = """
            {"title": "Heron", "defaults": {"unit": "mm", "releaseMm": 0.05, "pull": [0, 0, 1], "keep": {"side": "outer"},
             "layup": {"plies": [{"weave": "twill-2x2", "arealWeightGsm": 210, "angleDeg": 45}]}},
             "parts": [{"name": "a", "file": "a.stl", "quantity": 2, "recipe": {"title": "A", "flange": {"widthMm": 25}}},
              {"name": "b", "mirrorOf": "a"}]}""";
    private static final String CSV = "part,file,mirror_of,quantity,description,recipe,recipe.printer.bedXMm\n"
            + "a,a.stl,,2,\"left, \"\"big\"\"\",\"{\"\"releaseMm\"\": 0.1}\",300\nb,,a,,,,\n";
    private static final List<String> WORDS = List.of("1e999999999", "-1e-999999999", "NaN", "-0.0", "9".repeat(1500), "null",
            "[".repeat(600), "{\"a\":".repeat(600), "\"", "\\", "\\u0000", "\\ud800", "\uFEFF", "/*", ",", ":", "\n", "\r", "'",
            "a".repeat(3000), "\"recipe\":{}", "\"plies\":[{}]", "recipe.a.b.c", "\"keep\":{\"seed\":[1,2,3]}", "true");

    static {
        // Only these; the service itself takes longer to start than all the tries.
        AnnotationConfigApplicationContext beans = new AnnotationConfigApplicationContext();
        beans.registerBean(UploadSettings.class, () -> new UploadSettings(DataSize.ofMegabytes(1), DataSize.ofKilobytes(64),
                DataSize.ofMegabytes(1), 500, Duration.ofMinutes(1)));
        beans.register(ContractSchemas.class, RecipeReader.class, ManifestReader.class);
        beans.refresh();
        RECIPES = beans.getBean(RecipeReader.class);
        MANIFESTS = beans.getBean(ManifestReader.class);
        RECIPES.read("{}");
        MANIFESTS.read(new SuitArchive(FILES, JSON, false, null));
        MANIFESTS.read(new SuitArchive(FILES, CSV, true, null));
    }

    private static String damaged(String text, SplittableRandom random) {
        StringBuilder damaged = new StringBuilder(text);
        for (int edits = 1 + random.nextInt(3); edits > 0; edits--) {
            int at = random.nextInt(damaged.length() + 1);
            int end = Math.min(damaged.length(), at + random.nextInt(12));
            switch (random.nextInt(4)) {
                case 0 -> damaged.insert(at, WORDS.get(random.nextInt(WORDS.size())));
                case 1 -> damaged.replace(at, end, WORDS.get(random.nextInt(WORDS.size())));
                case 2 -> damaged.delete(at, end);
                default -> damaged.insert(at, damaged.substring(at, end));
            }
        }
        return damaged.toString();
    }

    private static void readOrRefuse(Supplier<?> reader) {
        long before = THREADS.getThreadAllocatedBytes(Thread.currentThread().getId());
        try {
            reader.get();
        } catch (ProblemException refused) {
            assertEquals(4, refused.problem().status() / 100, refused::toString);
        }
        long allocated = THREADS.getThreadAllocatedBytes(Thread.currentThread().getId()) - before;
        assertTrue(allocated < MOST_ALLOCATED, () -> allocated + " bytes");
    }

    @Property(tries = 1000, seed = "51")
    void manifestsInJson(@ForAll long seed) {
        String manifest = damaged(JSON, new SplittableRandom(seed));
        readOrRefuse(() -> MANIFESTS.read(new SuitArchive(FILES, manifest, false, null)));
    }

    @Property(tries = 1000, seed = "52")
    void manifestsAsTables(@ForAll long seed) {
        String manifest = damaged(CSV, new SplittableRandom(seed));
        readOrRefuse(() -> MANIFESTS.read(new SuitArchive(FILES, manifest, true, null)));
    }

    @Property(tries = 1000, seed = "53")
    void recipes(@ForAll long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        String whole = RECIPES.read("{}").json();
        String recipe = damaged(whole, random);
        readOrRefuse(() -> RECIPES.read(recipe));
    }

    /** As deep as a recipe and a table's header may be long. */
    @Example
    void bottomlessDocuments() {
        for (String open : List.of("[", "{\"a\":", "{\"keep\":", "{\"layup\":{\"plies\":[")) {
            String deep = open.repeat((64 << 10) / open.length());
            assertThrows(ProblemException.class, () -> RECIPES.read(deep));
            assertThrows(ProblemException.class, () -> MANIFESTS.read(new SuitArchive(FILES, deep, false, null)));
            assertThrows(ProblemException.class, () -> MANIFESTS.read(new SuitArchive(FILES, JSON, false, deep)));
        }
        String column = "recipe" + ".a".repeat(100_000);
        assertThrows(ProblemException.class,
                () -> MANIFESTS.read(new SuitArchive(FILES, "part,file," + column + "\na,a.stl,1\n", true, null)));
    }
}
