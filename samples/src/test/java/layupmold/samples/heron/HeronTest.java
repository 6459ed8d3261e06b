package layupmold.samples.heron;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import layupmold.api.ContractJson;
import layupmold.api.batch.SuitManifest;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class HeronTest {

    private static final Path FOLDER = Path.of("heron");
    private static final Map<HeronPart, TriangleMesh> MESHES = new EnumMap<>(HeronPart.class);

    private static synchronized TriangleMesh mesh(HeronPart part) {
        return MESHES.computeIfAbsent(part, HeronPart::mesh);
    }

    @ParameterizedTest
    @EnumSource(HeronPart.class)
    void isASoundThinShell(HeronPart part) {
        TriangleMesh mesh = mesh(part);
        EdgeTopology topology = EdgeTopology.of(mesh);
        assertTrue(topology.isClosedAndOriented());
        assertEquals(0, topology.nonManifoldVertices(mesh.vertexCount()).length);
        assertTrue(mesh.volume() > 0);
        assertEquals(0, SelfIntersections.find(mesh, TriangleBvh.of(mesh), 10).length);
        assertTrue(mesh.triangleCount() >= 5_000 && mesh.triangleCount() <= 100_000, mesh.triangleCount() + "");
        double meanWall = 2 * mesh.volume() / mesh.area();
        assertTrue(meanWall > 1.5 && meanWall < 4, "mean wall " + meanWall);
    }

    /** An opening through a shell is a handle: V − E + F = 2 − 2 openings. */
    @Test
    void openingsAreThroughTheWall() {
        Map<HeronPart, Integer> openings = Map.of(HeronPart.MASK, 2, HeronPart.CROWN, 2, HeronPart.BREAST, 0,
                HeronPart.SHOULDER_LEFT, 1, HeronPart.FOREARM_LEFT, 4, HeronPart.SHIN_LEFT, 4, HeronPart.TAIL, 2);
        openings.forEach((part, count) -> {
            TriangleMesh mesh = mesh(part);
            int euler = mesh.vertexCount() - mesh.triangleCount() / 2;
            assertEquals(2 - 2 * count, euler, part.slug());
        });
    }

    @Test
    void rightHandPartsMirrorTheLeft() {
        for (HeronPart part : HeronPart.values()) {
            if (part.mirrorOf() == null) {
                continue;
            }
            double[] right = mesh(part).xyz();
            double[] left = mesh(part.mirrorOf()).xyz();
            assertEquals(left.length, right.length);
            for (int i = 0; i < left.length; i++) {
                assertEquals(left[i], i % 3 == 0 ? -right[i] : right[i], 0);
            }
        }
    }

    /** The crown alone closes in below its widest place, and by more than a laminate springs. */
    @Test
    void crownIsUndercutAtTheNape() {
        TriangleMesh crown = mesh(HeronPart.CROWN);
        double widest = 0;
        double lowest = Double.MAX_VALUE;
        double atLowest = 0;
        for (int i = 0; i < crown.xyz().length; i += 3) {
            double back = -crown.xyz()[i + 1];
            widest = Math.max(widest, back);
            if (Math.abs(crown.xyz()[i]) < 4 && back > 0 && crown.xyz()[i + 2] < lowest) {
                lowest = crown.xyz()[i + 2];
                atLowest = back;
            }
        }
        assertTrue(widest - atLowest > 3, "undercut " + (widest - atLowest));
    }

    @ParameterizedTest
    @EnumSource(HeronPart.class)
    void keptFileIsWhatTheCodeMakes(HeronPart part) throws IOException {
        ByteArrayOutputStream made = new ByteArrayOutputStream();
        WriteHeron.writeStl(part, made);
        assertArrayEquals(Files.readAllBytes(FOLDER.resolve(part.slug() + ".stl")), made.toByteArray(),
                "run WriteHeron and look at what changed");
    }

    @Test
    void keptManifestsAreWhatTheCodeMakes() throws IOException {
        assertEquals(Files.readString(FOLDER.resolve("suit.json")), new String(HeronManifest.json()));
        assertEquals(Files.readString(FOLDER.resolve("suit.csv")), new String(HeronManifest.csv()));
        SuitManifest read = ContractJson.read(Files.readAllBytes(FOLDER.resolve("suit.json")), SuitManifest.class);
        assertEquals(HeronManifest.manifest(), read);
        assertEquals(10, read.parts().size());
    }

    @Test
    void filesStaySmall() throws IOException {
        long total = 0;
        for (HeronPart part : HeronPart.values()) {
            total += Files.size(FOLDER.resolve(part.slug() + ".stl"));
        }
        assertTrue(total < 15_000_000, total + " bytes");
    }

    /** Debian's admesh shares no code with ours. */
    @ParameterizedTest
    @EnumSource(HeronPart.class)
    void admeshFindsNothingToRepair(HeronPart part) throws Exception {
        boolean there = Files.isExecutable(Path.of("/usr/bin/admesh"));
        if (!Boolean.getBoolean("layupmold.requireOutsiders")) {
            Assumptions.assumeTrue(there, "admesh is not installed");
        }
        Process process = new ProcessBuilder("admesh", FOLDER.resolve(part.slug() + ".stl").toString())
                .redirectErrorStream(true).start();
        String said = new String(process.getInputStream().readAllBytes());
        assertTrue(process.waitFor(60, TimeUnit.SECONDS));
        for (String repair : List.of("Total disconnected facets", "Degenerate facets", "Edges fixed", "Facets removed",
                "Facets added", "Facets reversed", "Backwards edges")) {
            assertEquals(0, figure(said, repair), repair);
        }
        assertEquals(1, figure(said, "Number of parts"));
    }

    private static int figure(String report, String label) {
        Matcher matcher = Pattern.compile(label + "\\s*:\\s*(\\d+)").matcher(report);
        assertTrue(matcher.find(), () -> "no \"" + label + "\" in: " + report);
        return Integer.parseInt(matcher.group(1));
    }
}
