package layupmold.service.store;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileTime;
import java.security.DigestOutputStream;
import java.security.MessageDigest;
import java.time.Instant;
import java.util.HexFormat;
import java.util.function.Consumer;
import java.util.stream.Stream;

/** Blobs as files: written beside their place, forced to disk, then moved there in one step. */
public final class FolderBlobStore implements BlobStore {

    private final Path blobs;
    private final Path unfinished;

    public FolderBlobStore(Path folder) {
        blobs = folder.resolve("sha256");
        unfinished = folder.resolve("unfinished");
        try {
            Files.createDirectories(blobs);
            Files.createDirectories(unfinished);
        } catch (IOException e) {
            throw new UncheckedIOException("cannot create the folder for blobs at " + folder, e);
        }
    }

    @Override
    public Blob put(Source source) throws IOException {
        Path draft = Files.createTempFile(unfinished, "blob", null);
        try {
            Blob blob = writeAndForce(source, draft);
            Path place = place(blob.key());
            Files.createDirectories(place.getParent());
            Files.move(draft, place, StandardCopyOption.ATOMIC_MOVE);
            return blob;
        } finally {
            Files.deleteIfExists(draft);
        }
    }

    private static Blob writeAndForce(Source source, Path file) throws IOException {
        MessageDigest digest = Sha256.digest();
        try (FileChannel channel = FileChannel.open(file, StandardOpenOption.WRITE)) {
            OutputStream out = new BufferedOutputStream(
                    new DigestOutputStream(Channels.newOutputStream(channel), digest), 1 << 16);
            source.writeTo(out);
            out.flush();
            channel.force(true);
            return new Blob(HexFormat.of().formatHex(digest.digest()), channel.position());
        }
    }

    @Override
    public InputStream open(String key) throws IOException {
        return Files.newInputStream(place(key));
    }

    @Override
    public void delete(String key) throws IOException {
        Files.deleteIfExists(place(key));
    }

    @Override
    public void forEachOlderThan(Instant time, Consumer<String> key) throws IOException {
        try (Stream<Path> drafts = Files.list(unfinished)) {
            for (Path draft : (Iterable<Path>) drafts::iterator) {
                if (isOlder(draft, time)) {
                    Files.deleteIfExists(draft);
                }
            }
        }
        try (Stream<Path> files = Files.walk(blobs)) {
            files.filter(Files::isRegularFile).filter(file -> isOlder(file, time))
                    .forEach(file -> key.accept(file.getFileName().toString()));
        }
    }

    private static boolean isOlder(Path file, Instant time) {
        try {
            return Files.getLastModifiedTime(file).compareTo(FileTime.from(time)) < 0;
        } catch (IOException goneMeanwhile) {
            return false;
        }
    }

    private Path place(String key) {
        Sha256.requireHex(key);
        return blobs.resolve(key.substring(0, 2)).resolve(key);
    }
}
