package layupmold.geometry.outsiders;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/**
 * Runs scripts on Node.js with the packages that {@code .ci/outsiders.sh} installs. Tests that need them are skipped on
 * machines without, unless {@code -Dlayupmold.requireOutsiders=true}.
 */
public final class Node {

    private Node() {
    }

    /** Standard output of a script of {@code src/test/node}; fails the test if it fails. */
    public static String run(String script, String npmPackage, String... arguments) throws Exception {
        Path packages = packages();
        boolean there = Files.isDirectory(packages.resolve("node_modules").resolve(npmPackage)) && hasNode();
        if (!Boolean.getBoolean("layupmold.requireOutsiders")) {
            assumeTrue(there, npmPackage + " is not installed; see .ci/outsiders.sh");
        }
        List<String> command = new ArrayList<>(List.of("node", "src/test/node/" + script));
        command.addAll(List.of(arguments));
        Path errors = Files.createTempFile("node", ".err");
        ProcessBuilder builder = new ProcessBuilder(command).redirectError(errors.toFile());
        builder.environment().put("OUTSIDERS", packages.toString());
        Process process = builder.start();
        String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        if (!process.waitFor(120, TimeUnit.SECONDS) || process.exitValue() != 0) {
            process.destroyForcibly();
            throw new AssertionError(script + " failed: " + Files.readString(errors) + output);
        }
        Files.delete(errors);
        return output;
    }

    private static Path packages() {
        return Path.of("..", ".ci").toAbsolutePath().normalize();
    }

    private static boolean hasNode() {
        try {
            return new ProcessBuilder("node", "--version").start().waitFor() == 0;
        } catch (IOException e) {
            return false;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return false;
        }
    }
}
