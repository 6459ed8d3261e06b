package layupmold.service.store;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.security.DigestOutputStream;
import java.security.MessageDigest;
import java.time.Instant;
import java.util.HexFormat;
import java.util.function.Consumer;
import software.amazon.awssdk.core.exception.SdkException;
import software.amazon.awssdk.core.sync.RequestBody;
import software.amazon.awssdk.services.s3.S3Client;
import software.amazon.awssdk.services.s3.model.NoSuchBucketException;
import software.amazon.awssdk.services.s3.model.S3Exception;
import software.amazon.awssdk.services.s3.model.S3Object;

/**
 * Blobs as objects of a bucket that several nodes share. A blob is written to a local file first, since its key is its
 * hash, then sent in one request; S3 shows an object whole or not at all. Objects under the prefix that are no blobs are
 * left alone.
 */
public final class S3BlobStore implements BlobStore, AutoCloseable {

    private final S3Client s3;
    private final String bucket;
    private final String prefix;

    /** @param prefix in front of every key; may be empty */
    public S3BlobStore(S3Client s3, String bucket, String prefix) {
        this.s3 = s3;
        this.bucket = bucket;
        this.prefix = prefix;
    }

    @Override
    public Blob put(Source source) throws IOException {
        Path draft = Files.createTempFile("layupmold", ".blob");
        try {
            MessageDigest digest = Sha256.digest();
            try (OutputStream out = new BufferedOutputStream(
                    new DigestOutputStream(Files.newOutputStream(draft), digest), 1 << 16)) {
                source.writeTo(out);
            }
            Blob blob = new Blob(HexFormat.of().formatHex(digest.digest()), Files.size(draft));
            s3.putObject(request -> request.bucket(bucket).key(prefix + blob.key()), RequestBody.fromFile(draft));
            return blob;
        } catch (SdkException e) {
            throw new IOException("the bucket does not take the blob", e);
        } finally {
            Files.deleteIfExists(draft);
        }
    }

    @Override
    public InputStream open(String key) throws IOException {
        Sha256.requireHex(key);
        try {
            return s3.getObject(request -> request.bucket(bucket).key(prefix + key));
        } catch (SdkException e) {
            if (isMissing(e)) {
                throw new NoSuchFileException(key);
            }
            throw new IOException("the bucket does not give the blob", e);
        }
    }

    @Override
    public void delete(String key) throws IOException {
        Sha256.requireHex(key);
        try {
            s3.deleteObject(request -> request.bucket(bucket).key(prefix + key));
        } catch (SdkException e) {
            // AWS says nothing of a key that is not there; some other servers do.
            if (!isMissing(e)) {
                throw new IOException("the bucket does not remove the blob", e);
            }
        }
    }

    /** Not every server says which kind of 404 it means. */
    private static boolean isMissing(SdkException e) {
        return e instanceof S3Exception answer && answer.statusCode() == 404 && !(e instanceof NoSuchBucketException);
    }

    @Override
    public void forEachOlderThan(Instant time, Consumer<String> key) throws IOException {
        try {
            for (S3Object object : s3.listObjectsV2Paginator(
                    request -> request.bucket(bucket).prefix(prefix)).contents()) {
                String name = object.key().substring(prefix.length());
                if (name.matches("[0-9a-f]{64}") && object.lastModified().isBefore(time)) {
                    key.accept(name);
                }
            }
        } catch (SdkException e) {
            throw new IOException("the bucket cannot be listed", e);
        }
    }

    @Override
    public void close() {
        s3.close();
    }
}
