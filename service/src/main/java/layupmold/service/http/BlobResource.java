package layupmold.service.http;

import java.io.IOException;
import java.io.InputStream;
import layupmold.service.store.Blob;
import layupmold.service.store.BlobStore;
import org.springframework.core.io.AbstractResource;

/** A blob as the body of an answer; opened only when it is really sent. */
final class BlobResource extends AbstractResource {

    private final BlobStore store;
    private final Blob blob;

    BlobResource(BlobStore store, Blob blob) {
        this.store = store;
        this.blob = blob;
    }

    @Override
    public InputStream getInputStream() throws IOException {
        return store.open(blob.key());
    }

    @Override
    public long contentLength() {
        return blob.bytes();
    }

    @Override
    public String getDescription() {
        return "blob " + blob.key();
    }
}
