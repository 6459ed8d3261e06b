package layupmold.service.store;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.time.Instant;
import java.util.function.Consumer;

/**
 * Keeps immutable bytes under their hash. A blob is there whole or not at all, even if the process dies while writing
 * it; once {@code put} has returned it survives the process.
 */
public interface BlobStore {

    /** Writes a blob's bytes. */
    @FunctionalInterface
    interface Source {
        void writeTo(OutputStream out) throws IOException;
    }

    /**
     * Keeps what the source writes. Putting bytes that are already there renews their age.
     *
     * @throws IOException if the source breaks or the store cannot write; nothing is kept then
     */
    Blob put(Source source) throws IOException;

    /**
     * Opens a blob; the caller closes the stream.
     *
     * @throws java.nio.file.NoSuchFileException if there is none
     */
    InputStream open(String key) throws IOException;

    /** Removes a blob; no error if there is none. */
    void delete(String key) throws IOException;

    /** Calls back with every blob that was last put before the given time. Order is not defined. */
    void forEachOlderThan(Instant time, Consumer<String> key) throws IOException;
}
