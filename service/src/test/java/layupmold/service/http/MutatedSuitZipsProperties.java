package layupmold.service.http;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.sun.management.ThreadMXBean;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.util.SplittableRandom;
import java.util.function.Consumer;
import layupmold.service.Parts;
import layupmold.service.batch.SuitZips;
import layupmold.service.problem.ProblemException;
import layupmold.service.settings.UploadSettings;
import layupmold.service.store.Blob;
import layupmold.service.store.BlobStore;
import layupmold.service.store.Sha256;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.springframework.util.unit.DataSize;

/** Suits' zips with random damage: they are unpacked within their bounds or refused, and nothing else. */
class MutatedSuitZipsProperties {

    private static final long MOST_UNPACKED = 1 << 20;
    /** A store in memory doubles as it grows; 16 times what may come out is far from unbounded. */
    private static final long MOST_ALLOCATED = 16 * MOST_UNPACKED;
    private static final ThreadMXBean THREADS = (ThreadMXBean) ManagementFactory.getThreadMXBean();
    private static final SuitZipReader READER = new SuitZipReader(new Memory(), new UploadSettings(
            DataSize.ofMegabytes(1), DataSize.ofKilobytes(64), DataSize.ofBytes(MOST_UNPACKED), 20, Duration.ofMinutes(1)));
    private static final byte[] SUIT = SuitZips.with("suit/suit.json", "{\"parts\": []}".getBytes(StandardCharsets.UTF_8))
            .and("suit/a.stl", Parts.tetrahedron(9)).and("suit/sub/b.stl", new byte[40_000]).and("suit/.hidden", "x").bytes();
    private static final String[] WORDS = {"../", "..\\", "/", "C:", "\0", "PK\3\4", "PK\1\2", "suit.csv"};

    /** Keeps nothing; counts and hashes. */
    private static final class Memory implements BlobStore {

        @Override
        public Blob put(Source source) throws IOException {
            ByteArrayOutputStream bytes = new ByteArrayOutputStream();
            source.writeTo(bytes);
            return new Blob(Sha256.hex(bytes.toString(StandardCharsets.ISO_8859_1)), bytes.size());
        }

        @Override
        public InputStream open(String key) {
            throw new UnsupportedOperationException();
        }

        @Override
        public void delete(String key) {
            throw new UnsupportedOperationException();
        }

        @Override
        public void forEachOlderThan(Instant time, Consumer<String> key) {
            throw new UnsupportedOperationException();
        }
    }

    private static byte[] damaged(SplittableRandom random) {
        byte[] bytes = SUIT.clone();
        for (int edits = 1 + random.nextInt(4); edits > 0; edits--) {
            int at = random.nextInt(bytes.length);
            switch (random.nextInt(4)) {
                case 0 -> bytes[at] ^= (byte) (1 << random.nextInt(8));
                case 1 -> bytes[at] = (byte) random.nextInt(256);
                case 2 -> {
                    // Over what is there, so that names change and lengths stay.
                    byte[] word = WORDS[random.nextInt(WORDS.length)].getBytes(StandardCharsets.ISO_8859_1);
                    System.arraycopy(word, 0, bytes, at, Math.min(word.length, bytes.length - at));
                }
                default -> bytes = random.nextInt(4) == 0 ? java.util.Arrays.copyOf(bytes, at + 1) : bytes;
            }
        }
        return bytes;
    }

    @Property(tries = 5000, seed = "54")
    void onlyProblemsEscape(@ForAll long seed) throws IOException {
        byte[] zip = damaged(new SplittableRandom(seed));
        long before = THREADS.getThreadAllocatedBytes(Thread.currentThread().getId());
        try {
            SuitZipReader.Unpacked suit = READER.read(new ByteArrayInputStream(zip), MOST_UNPACKED);
            assertTrue(suit.files().values().stream().mapToLong(Blob::bytes).sum() <= MOST_UNPACKED);
            for (String name : suit.files().keySet()) {
                assertFalse(("/" + name + "/").contains("/../") || name.startsWith("/"), name);
            }
        } catch (ProblemException refused) {
            assertEquals(4, refused.problem().status() / 100, refused::toString);
        }
        long allocated = THREADS.getThreadAllocatedBytes(Thread.currentThread().getId()) - before;
        assertTrue(allocated < MOST_ALLOCATED, () -> allocated + " bytes");
    }
}
