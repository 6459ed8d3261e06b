package layupmold.geometry.mesh.io;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.sun.management.ThreadMXBean;
import java.io.ByteArrayOutputStream;
import java.lang.management.ManagementFactory;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.shapes.Soups;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;

/** Valid files with random damage: they are read or refused, and nothing else. */
class MutatedFilesProperties {

    private static final MeshLimits LIMITS = new MeshLimits(1 << 20, 20_000, 20_000, 1 << 20);
    /** Sixteen times what may unfold. */
    private static final long MOST_ALLOCATED = 16 << 20;
    private static final ThreadMXBean THREADS = (ThreadMXBean) ManagementFactory.getThreadMXBean();
    private static final List<byte[]> FILES = List.of(
            StlReaderTest.binary(Soups.box(1, 2, 3), "fuzz"),
            asciiStl(Soups.box(1, 2, 3)),
            obj(),
            PlyReaderTest.ascii().getBytes(StandardCharsets.US_ASCII),
            PlyReaderTest.binary(ByteOrder.LITTLE_ENDIAN),
            PlyReaderTest.binary(ByteOrder.BIG_ENDIAN),
            ThreeMfFiles.file(ThreeMfFiles.plainModel()),
            ThreeMfWriterTest.write(Soups.box(1, 2, 3), new byte[12], Map.of("Title", "fuzz")));
    private static final String[] WORDS = {"4294967295", "-1", "nan", "1e999", "9999999999999999999", "<", "&e;", "\"",
        "solid", "f 1 2 3 4 5 6", "\\\n", "\r", "property list uchar int vertex_indices\n", "<!DOCTYPE a>", "0"};

    private static byte[] obj() {
        return "v 0 0 0\nv 1 0 0 1 1 1\nv 1 1 0\nv 0 1 0\nvt 0 0\nvn 0 0 1\nf 1/1/1 2//1 3 \\\n 4\nf -1 -2 -3\n"
                .getBytes(StandardCharsets.US_ASCII);
    }

    private static byte[] asciiStl(TriangleMesh mesh) {
        StringBuilder text = new StringBuilder("solid fuzz\n");
        for (int t = 0; t < mesh.triangleCount(); t++) {
            text.append("facet normal 0 0 0\nouter loop\n");
            for (int k = 0; k < 3; k++) {
                var p = mesh.corner(t, k);
                text.append("vertex ").append(p.x).append(' ').append(p.y).append(' ').append(p.z).append('\n');
            }
            text.append("endloop\nendfacet\n");
        }
        return text.append("endsolid fuzz\n").toString().getBytes(StandardCharsets.US_ASCII);
    }

    private static byte[] damaged(byte[] file, SplittableRandom random) {
        byte[] bytes = file.clone();
        for (int edits = 1 + random.nextInt(4); edits > 0 && bytes.length > 0; edits--) {
            int at = random.nextInt(bytes.length);
            switch (random.nextInt(6)) {
                case 0 -> bytes[at] ^= (byte) (1 << random.nextInt(8));
                case 1 -> bytes[at] = (byte) random.nextInt(256);
                case 2 -> bytes = spliced(bytes, at, at + random.nextInt(Math.min(40, bytes.length - at) + 1), new byte[0]);
                case 3 -> bytes = spliced(bytes, at, at, WORDS[random.nextInt(WORDS.length)].getBytes(
                        StandardCharsets.US_ASCII));
                case 4 -> bytes = spliced(bytes, at, at, java.util.Arrays.copyOfRange(bytes, at,
                        Math.min(bytes.length, at + random.nextInt(200))));
                default -> bytes = random.nextInt(4) == 0 ? java.util.Arrays.copyOf(bytes, at) : bytes;
            }
        }
        return bytes;
    }

    private static byte[] spliced(byte[] bytes, int from, int to, byte[] middle) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        out.write(bytes, 0, from);
        out.writeBytes(middle);
        out.write(bytes, to, bytes.length - to);
        return out.toByteArray();
    }

    @Property(tries = 20_000, seed = "41")
    void onlyRejectionsEscape(@ForAll long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        byte[] bytes = damaged(FILES.get(random.nextInt(FILES.size())), random);
        try {
            assertUsable(withinMemory(bytes));
        } catch (Rejection rejection) {
            assertEquals("read", rejection.finding().stage());
            assertTrue(rejection.finding().code().matches("[a-z0-9-]+"), rejection.finding().code());
        }
    }

    /** Damage inside the model part: the archive around it is whole, so it must be the parser that copes. */
    @Property(tries = 10_000, seed = "42")
    void onlyRejectionsEscapeFromDamagedModels(@ForAll long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        byte[] model = damaged(ThreeMfFiles.plainModel().getBytes(StandardCharsets.UTF_8), random);
        byte[] file = ThreeMfFiles.file(new String(model, StandardCharsets.UTF_8));
        try {
            assertUsable(withinMemory(file));
        } catch (Rejection rejection) {
            assertEquals("read", rejection.finding().stage());
        }
    }

    /** Reads, and holds what was allocated on the way, not only what is kept, against a bound that the limits imply. */
    private static PartFile withinMemory(byte[] bytes) {
        long before = THREADS.getThreadAllocatedBytes(Thread.currentThread().getId());
        try {
            return MeshReader.read(bytes, "fuzz.bin", LIMITS);
        } finally {
            long allocated = THREADS.getThreadAllocatedBytes(Thread.currentThread().getId()) - before;
            assertTrue(allocated < MOST_ALLOCATED, () -> allocated + " bytes for a file of " + bytes.length);
        }
    }

    private static void assertUsable(PartFile file) {
        assertTrue(file.mesh().triangleCount() > 0 && file.mesh().triangleCount() <= LIMITS.maxTriangles());
        for (double c : file.mesh().xyz()) {
            assertTrue(Math.abs(c) <= Unreadable.MAX_COORDINATE, "coordinate " + c);
        }
    }
}
