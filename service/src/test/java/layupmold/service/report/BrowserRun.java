package layupmold.service.report;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

/**
 * What a real browser made of a report page. Needs Node.js, Chromium and the packages that {@code .ci/outsiders.sh}
 * installs; without them the test is skipped, unless {@code -Dlayupmold.requireOutsiders=true}.
 *
 * @param lines "key value" lines of {@code open-report.mjs}
 */
record BrowserRun(List<String> lines) {

    private static final Path PACKAGES = Path.of("..", ".ci").toAbsolutePath().normalize();

    static BrowserRun of(Path page, Path folder) throws Exception {
        Path chromium = Stream.of("/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome")
                .map(Path::of).filter(Files::isExecutable).findFirst().orElse(null);
        boolean there = chromium != null && Files.isDirectory(PACKAGES.resolve("node_modules/playwright-core"));
        if (!Boolean.getBoolean("layupmold.requireOutsiders")) {
            assumeTrue(there, "no Chromium or playwright-core; see .ci/outsiders.sh");
        }
        Path errors = Files.createTempFile("browser", ".err");
        ProcessBuilder builder = new ProcessBuilder("node", "src/test/node/open-report.mjs", page.toString(), folder.toString())
                .redirectError(errors.toFile());
        builder.environment().put("OUTSIDERS", PACKAGES.toString());
        builder.environment().put("CHROMIUM", String.valueOf(chromium));
        Process process = builder.start();
        String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        if (!process.waitFor(180, TimeUnit.SECONDS) || process.exitValue() != 0) {
            process.destroyForcibly();
            throw new AssertionError("the browser failed: " + Files.readString(errors) + output);
        }
        Files.delete(errors);
        return new BrowserRun(output.lines().toList());
    }

    /** Values of all lines with a key, in order. */
    List<String> values(String key) {
        return lines.stream().filter(line -> line.startsWith(key + " ")).map(line -> line.substring(key.length() + 1)).toList();
    }
}
