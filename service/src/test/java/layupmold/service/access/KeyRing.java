package layupmold.service.access;

import io.restassured.specification.RequestSpecification;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import layupmold.service.CubeMaker;
import layupmold.service.RunningService;

/** A service that asks for keys, and the keys to it. */
final class KeyRing implements AutoCloseable {

    final RunningService service;
    final Path firstKeyFile;
    private final String first;

    KeyRing(String... settings) throws IOException {
        firstKeyFile = Files.createTempDirectory("keys").resolve("deep").resolve("first-key");
        String[] all = Arrays.copyOf(settings, settings.length + 2);
        all[settings.length] = "layupmold.access.api-keys=true";
        all[settings.length + 1] = "layupmold.access.first-key-file=" + firstKeyFile;
        service = RunningService.start(new CubeMaker(), all);
        first = Files.readString(firstKeyFile).strip();
    }

    /** A request by the first key, which has all scopes. */
    RequestSpecification admin() {
        return with(first);
    }

    RequestSpecification with(String key) {
        return service.request().header("Authorization", "Bearer " + key);
    }

    /** A new key. */
    String key(String owner, String scopes, String more) {
        return admin().contentType("application/json")
                .body("{\"owner\":\"" + owner + "\",\"scopes\":[" + scopes + "]" + more + "}")
                .post("/v1/keys").then().statusCode(201).extract().path("key");
    }

    @Override
    public void close() {
        service.close();
    }
}
