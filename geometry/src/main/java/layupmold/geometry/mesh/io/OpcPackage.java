package layupmold.geometry.mesh.io;

import java.io.ByteArrayInputStream;
import java.io.EOFException;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.util.HashSet;
import java.util.Locale;
import java.util.Set;
import java.util.function.Predicate;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import layupmold.geometry.finding.Rejection;

/**
 * The zip container of a 3MF file (ECMA-376 part 2, Open Packaging Conventions), unfolded as a stream from memory.
 *
 * <p>Bytes are counted as they come out of the decompressor, passed-over parts included; sizes in headers are not
 * believed. Part names are keys, never paths on a disk.
 */
final class OpcPackage {

    private static final int MOST_PARTS = 10_000;
    /** Meshes in XML unfold about 5 to 15 times; far beyond that is a bomb. */
    private static final long MOST_RATIO = 200;
    private static final long RATIO_FREE_BYTES = 16L << 20;

    /** Takes a part's content; may stop before its end. */
    @FunctionalInterface
    interface PartVisitor {
        void visit(String name, InputStream content) throws IOException;
    }

    private final byte[] bytes;
    private final long budget;
    private long unfolded;

    OpcPackage(byte[] bytes, MeshLimits limits) {
        this.bytes = bytes;
        this.budget = Math.min(limits.maxDecompressedBytes(),
                Math.max(RATIO_FREE_BYTES, MOST_RATIO * bytes.length));
    }

    /** Shows every part whose name, in lower case with a leading slash, is wanted; in file order. */
    void visit(Predicate<String> wanted, PartVisitor visitor) {
        unfolded = 0;
        Set<String> seen = new HashSet<>();
        try (ZipInputStream zip = new ZipInputStream(new ByteArrayInputStream(bytes))) {
            Counted content = new Counted(zip);
            for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
                String name = normal(entry.getName());
                if (!seen.add(name) || seen.size() > MOST_PARTS) {
                    throw bad("holds a part twice, or more than " + MOST_PARTS + " parts");
                }
                if (wanted.test(name)) {
                    visitor.visit(name, content);
                }
                content.drain();
            }
        } catch (EOFException e) {
            throw Unreadable.truncated("the 3MF file's archive ends too soon");
        } catch (IOException | IllegalArgumentException e) {
            throw bad("cannot be unfolded: " + Unreadable.printable(String.valueOf(e.getMessage())));
        }
    }

    private static Rejection bad(String what) {
        return Unreadable.because("bad-archive", "the 3MF file's archive " + what,
                "The file is damaged or no 3MF: export it again.");
    }

    /** A part name as it is compared: leading slash, lower case (part names differ in more than case). */
    static String normal(String name) {
        String slashed = name.startsWith("/") ? name : "/" + name;
        return slashed.toLowerCase(Locale.ROOT);
    }

    /** The current part's bytes; counts them, and is not closed by its reader. */
    private final class Counted extends FilterInputStream {

        private final byte[] sink = new byte[1 << 16];

        Counted(InputStream in) {
            super(in);
        }

        @Override
        public int read() throws IOException {
            int got = in.read();
            count(got < 0 ? 0 : 1);
            return got;
        }

        @Override
        public int read(byte[] target, int offset, int length) throws IOException {
            int got = in.read(target, offset, length);
            count(Math.max(0, got));
            return got;
        }

        private void count(int got) {
            unfolded += got;
            if (unfolded > budget) {
                throw Unreadable.because("unfolds-too-large",
                        "the 3MF file's " + bytes.length + " bytes unfold to more than " + budget,
                        "Reduce the mesh, or post it as binary STL.");
            }
        }

        void drain() throws IOException {
            while (read(sink, 0, sink.length) >= 0) {
                // Reading is the point: it counts the bytes and checks the part's checksum.
            }
        }

        @Override
        public void close() {
            // The archive goes on after this part.
        }
    }
}
