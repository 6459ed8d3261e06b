package layupmold.geometry.outside;

import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Assumptions;

/**
 * Programs and data from package registries that share no code with ours, to check our files with.
 *
 * <p>On a machine that lacks one, the test is skipped; with {@code -Dlayupmold.requireOutsiders=true}, as CI sets it,
 * the test fails instead. {@code .ci/run} installs them.
 */
public final class Outsiders {

    private static final long MOST_SECONDS = 120;
    private static final Map<String, Path> PROGRAMS = new HashMap<>();

    private Outsiders() {
    }

    /**
     * What Debian's admesh says of an STL file after an exact edge check.
     *
     * @param facets facets in the file
     * @param disconnectedFacets facets with an edge that no other facet shares exactly
     * @param parts connected pieces
     * @param degenerateFacets facets with two corners at one place
     * @param backwardsEdges edges whose facets disagree in direction
     * @param reversedFacets facets it had to turn around
     * @param volume in the file's units cubed, computed in float32
     */
    public record AdmeshReport(int facets, int disconnectedFacets, int parts, int degenerateFacets,
            int backwardsEdges, int reversedFacets, double volume) {

        /** True if every edge joins two facets that agree, in one piece. */
        public boolean isOneClosedSurface() {
            return disconnectedFacets == 0 && parts == 1 && degenerateFacets == 0 && backwardsEdges == 0
                    && reversedFacets == 0;
        }
    }

    /**
     * What lib3mf says of a 3MF file with one mesh.
     *
     * @param warnings complaints about the file
     * @param manifold true if it finds the mesh closed, manifold and oriented
     * @param volume summed from the mesh it read
     * @param rewritten the same model as lib3mf writes it
     */
    public record Lib3mfReport(int warnings, int vertices, int triangles, boolean manifold, double volume,
            byte[] rewritten) {
    }

    /** Checks an STL file with admesh. */
    public static AdmeshReport admesh(byte[] stl) {
        require("admesh");
        return inFolder(folder -> {
            Path file = Files.write(folder.resolve("in.stl"), stl);
            String text = run(folder, "admesh", "-e", "-d", "-v", file.toString());
            return new AdmeshReport(
                    (int) figure(text, "Number of facets +: +(\\d+)"),
                    (int) figure(text, "Total disconnected facets +: +(\\d+)"),
                    (int) figure(text, "Number of parts +: +(\\d+)"),
                    (int) figure(text, "Degenerate facets +: +(\\d+)"),
                    (int) figure(text, "Backwards edges +: +(\\d+)"),
                    (int) figure(text, "Facets reversed +: +(\\d+)"),
                    figure(text, "Volume +: +(-?[0-9.]+)"));
        });
    }

    /**
     * Reads a mesh file with assimp and returns it in another format as assimp writes it.
     *
     * @param extension what the bytes are: "stl", "obj", "ply", "3mf"
     * @param format an assimp export format: "stl", "stlb", "obj", "ply", "plyb", "3mf"
     */
    public static byte[] assimp(byte[] bytes, String extension, String format) {
        require("assimp");
        return inFolder(folder -> {
            Path in = Files.write(folder.resolve("in." + extension), bytes);
            Path out = folder.resolve("out." + format);
            run(folder, "assimp", "export", in.toString(), out.toString(), "-f" + format);
            return Files.readAllBytes(out);
        });
    }

    /** Reads a 3MF file with Debian's lib3mf, through a small C++ program compiled on first use. */
    public static Lib3mfReport lib3mf(byte[] file) {
        require("g++");
        requireThat(Files.exists(Path.of("/usr/include/lib3mf")), "lib3mf-dev");
        return inFolder(folder -> {
            Path in = Files.write(folder.resolve("in.3mf"), file);
            Path out = folder.resolve("out.3mf");
            String text = run(folder, compiled("read3mf", "-I/usr/include/lib3mf", "-l3MF").toString(),
                    in.toString(), out.toString());
            return new Lib3mfReport((int) figure(text, "warnings (\\d+)"), (int) figure(text, "vertices (\\d+)"),
                    (int) figure(text, "triangles (\\d+)"), figure(text, "manifold (\\d)") == 1,
                    figure(text, "volume (\\S+)"), Files.readAllBytes(out));
        });
    }

    /**
     * What CGAL says of an STL file, equal points merged.
     *
     * @param manifold whether every edge joins at most two triangles, which agree in direction
     * @param closed whether every edge joins two
     * @param parts connected pieces
     * @param crosses whether triangles meet other than in common edges and corners, by exact predicates
     * @param outward whether the triangles face away from what they bound
     * @param volume in the file's units cubed
     */
    public record CgalReport(boolean manifold, boolean closed, int parts, boolean crosses, boolean outward,
            double volume) {

        /** True if it bounds one solid. */
        public boolean isOneSolid() {
            return manifold && closed && parts == 1 && !crosses && outward;
        }
    }

    /** Checks an STL file with Debian's CGAL, through a small C++ program compiled on first use. */
    public static CgalReport cgal(byte[] stl) {
        require("g++");
        requireThat(Files.exists(Path.of("/usr/include/CGAL")), "libcgal-dev");
        return inFolder(folder -> {
            Path in = Files.write(folder.resolve("in.stl"), stl);
            Path program = compiled("checkstl", "-O1", "-std=c++17", "-w", "-lgmp", "-lmpfr");
            String text = run(folder, program.toString(), in.toString());
            if (figure(text, "manifold (\\d)") == 0) {
                return new CgalReport(false, false, 0, false, false, 0);
            }
            return new CgalReport(true, figure(text, "closed (\\d)") == 1, (int) figure(text, "parts (\\d+)"),
                    figure(text, "crosses (\\d)") == 1, figure(text, "outward (\\d)") == 1,
                    figure(text, "volume (\\S+)"));
        });
    }

    private static synchronized Path compiled(String name, String... options) throws IOException {
        Path known = PROGRAMS.get(name);
        if (known == null) {
            Path folder = Files.createTempDirectory(name);
            Path source = folder.resolve(name + ".cpp");
            try (InputStream in = Outsiders.class.getResourceAsStream(name + ".cpp")) {
                Files.copy(in, source);
            }
            known = folder.resolve(name);
            List<String> command = new ArrayList<>(List.of("g++", "-o", known.toString(), source.toString()));
            command.addAll(List.of(options));
            run(folder, command.toArray(String[]::new));
            List.of(folder, source, known).forEach(path -> path.toFile().deleteOnExit());
            PROGRAMS.put(name, known);
        }
        return known;
    }

    /** The Stanford bunny, closed and reduced (npm package "bunny", by its own words public domain). */
    public static String bunnySource() {
        Path file = Path.of(System.getProperty("layupmold.bunny", "../.ci/outside/bunny/index.js"));
        requireThat(Files.exists(file), "the npm package bunny");
        try {
            return Files.readString(file);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static void require(String program) {
        boolean found = false;
        for (String folder : System.getenv("PATH").split(File.pathSeparator)) {
            found |= Files.isExecutable(Path.of(folder, program));
        }
        requireThat(found, program);
    }

    private static void requireThat(boolean found, String what) {
        if (!found && Boolean.getBoolean("layupmold.requireOutsiders")) {
            Assertions.fail(what + " is required here and not installed");
        }
        Assumptions.assumeTrue(found, what + " is not installed");
    }

    private interface Work<T> {
        T in(Path folder) throws IOException;
    }

    private static <T> T inFolder(Work<T> work) {
        try {
            Path folder = Files.createTempDirectory("outside");
            try {
                return work.in(folder);
            } finally {
                for (File file : folder.toFile().listFiles()) {
                    Files.delete(file.toPath());
                }
                Files.delete(folder);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static String run(Path folder, String... command) throws IOException {
        Path log = folder.resolve("log.txt");
        Process process = new ProcessBuilder(command).directory(folder.toFile()).redirectErrorStream(true)
                .redirectOutput(log.toFile()).start();
        try {
            if (!process.waitFor(MOST_SECONDS, TimeUnit.SECONDS)) {
                process.destroyForcibly();
                throw new AssertionError(command[0] + " did not finish in " + MOST_SECONDS + " s");
            }
        } catch (InterruptedException e) {
            process.destroyForcibly();
            Thread.currentThread().interrupt();
            throw new AssertionError(e);
        }
        String text = Files.readString(log, StandardCharsets.ISO_8859_1);
        Files.delete(log);
        Assertions.assertEquals(0, process.exitValue(), String.join(" ", command) + "\n" + text);
        return text;
    }

    private static double figure(String text, String pattern) {
        Matcher matcher = Pattern.compile(pattern).matcher(text);
        Assertions.assertTrue(matcher.find(), "no " + pattern + " in\n" + text);
        return Double.parseDouble(matcher.group(1));
    }
}
