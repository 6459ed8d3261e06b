package layupmold.service.store;

import static org.hamcrest.Matchers.equalTo;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import io.findify.s3mock.S3Mock;
import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.net.URI;
import java.nio.file.NoSuchFileException;
import java.time.Instant;
import java.util.HashSet;
import java.util.Random;
import java.util.Set;
import layupmold.service.CubeMaker;
import layupmold.service.Parts;
import layupmold.service.RunningService;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import software.amazon.awssdk.auth.credentials.AwsBasicCredentials;
import software.amazon.awssdk.auth.credentials.StaticCredentialsProvider;
import software.amazon.awssdk.core.sync.RequestBody;
import software.amazon.awssdk.http.urlconnection.UrlConnectionHttpClient;
import software.amazon.awssdk.regions.Region;
import software.amazon.awssdk.services.s3.S3Client;

/** The bucket store against a server that speaks S3 over HTTP, started here. */
class S3BlobStoreTest {

    private static S3Mock server;
    private static URI endpoint;
    private static S3Client client;

    @BeforeAll
    static void start() {
        server = new S3Mock.Builder().withPort(0).withInMemoryBackend().build();
        int port = server.start().localAddress().getPort();
        endpoint = URI.create("http://127.0.0.1:" + port);
        client = S3Client.builder().region(Region.US_EAST_1).endpointOverride(endpoint).forcePathStyle(true)
                .httpClientBuilder(UrlConnectionHttpClient.builder())
                .credentialsProvider(StaticCredentialsProvider.create(AwsBasicCredentials.create("test", "test"))).build();
        client.createBucket(request -> request.bucket("molds"));
        System.setProperty("aws.accessKeyId", "test");
        System.setProperty("aws.secretAccessKey", "test");
    }

    @AfterAll
    static void stop() {
        System.clearProperty("aws.accessKeyId");
        System.clearProperty("aws.secretAccessKey");
        client.close();
        server.shutdown();
    }

    private static byte[] read(BlobStore store, String key) throws IOException {
        try (InputStream in = store.open(key)) {
            return in.readAllBytes();
        }
    }

    @Test
    void bytesComeBackUnderTheirHash() throws IOException {
        BlobStore store = new S3BlobStore(client, "molds", "a/");
        byte[] bytes = new byte[3_000_000];
        new Random(1).nextBytes(bytes);
        Blob blob = store.put(out -> new ByteArrayInputStream(bytes).transferTo(out));
        assertEquals(Sha256.hex(bytes), blob.key());
        assertEquals(bytes.length, blob.bytes());
        assertArrayEquals(bytes, read(store, blob.key()));
        assertEquals(blob, store.put(out -> out.write(bytes)));
        store.delete(blob.key());
        store.delete(blob.key());
        assertThrows(NoSuchFileException.class, () -> read(store, blob.key()));
    }

    @Test
    void aSourceThatBreaksLeavesNothing() {
        BlobStore store = new S3BlobStore(client, "molds", "broken/");
        assertThrows(IOException.class, () -> store.put(out -> {
            out.write(1);
            throw new IOException("the connection broke");
        }));
        assertEquals(0, client.listObjectsV2(request -> request.bucket("molds").prefix("broken/")).contents().size());
    }

    @Test
    void oldBlobsAreListedAndNothingElseIsTouched() throws IOException {
        BlobStore store = new S3BlobStore(client, "molds", "b/");
        Set<String> put = new HashSet<>();
        for (int i = 0; i < 12; i++) {
            byte[] bytes = {(byte) i};
            put.add(store.put(out -> out.write(bytes)).key());
        }
        client.putObject(request -> request.bucket("molds").key("b/readme.txt"),
                RequestBody.fromString("not ours"));
        Set<String> old = new HashSet<>();
        store.forEachOlderThan(Instant.now().plusSeconds(60), old::add);
        assertEquals(put, old);
        Set<String> none = new HashSet<>();
        store.forEachOlderThan(Instant.now().minusSeconds(3600), none::add);
        assertEquals(Set.of(), none);
    }

    @Test
    void keysThatAreNoHashesAreRefused() {
        BlobStore store = new S3BlobStore(client, "molds", "");
        assertThrows(IllegalArgumentException.class, () -> store.open("../other"));
        assertThrows(IllegalArgumentException.class, () -> store.delete(""));
    }

    /** What one node took in another hands out: they share nothing but database and bucket. */
    @Test
    void nodesShareTheBucket() throws IOException {
        try (EmbeddedPostgres postgres = EmbeddedPostgres.builder().start()) {
            String[] settings = {"spring.datasource.url=" + postgres.getJdbcUrl("postgres", "postgres"),
                "spring.datasource.username=postgres", "layupmold.bucket.name=molds", "layupmold.bucket.prefix=nodes/",
                "layupmold.bucket.endpoint=" + endpoint, "layupmold.bucket.path-style=true"};
            try (RunningService one = RunningService.start(new CubeMaker(), settings);
                    RunningService two = RunningService.start(new CubeMaker(), settings)) {
                String mold = one.request().header("Prefer", "wait=60").contentType("model/stl").body(Parts.tetrahedron(20))
                        .post("/v1/molds").then().statusCode(200).extract().header("Location");
                byte[] here = one.request().get(mold + "/mold.stl").asByteArray();
                byte[] there = two.request().get(mold + "/mold.stl").then().statusCode(200).extract().asByteArray();
                assertArrayEquals(here, there);
                two.request().get("/actuator/health/readiness").then().body("status", equalTo("UP"));
            }
        }
    }
}
