package layupmold.service.store;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import org.springframework.boot.health.contributor.AbstractHealthIndicator;
import org.springframework.boot.health.contributor.Health;
import org.springframework.stereotype.Component;

/** Whether the store takes bytes: a node that cannot keep a part should not be sent any. */
@Component("store")
class StoreHealth extends AbstractHealthIndicator {

    private static final byte[] PROBE = "is the store there?".getBytes(StandardCharsets.US_ASCII);

    private final BlobStore store;

    StoreHealth(BlobStore store) {
        super("the store cannot be written");
        this.store = store;
    }

    @Override
    protected void doHealthCheck(Health.Builder health) throws IOException {
        store.put(out -> out.write(PROBE));
        health.up();
    }
}
