package layupmold.service.access;

import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.matchesPattern;
import static org.hamcrest.Matchers.not;
import static org.hamcrest.Matchers.nullValue;
import static org.hamcrest.Matchers.startsWith;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.Map;
import layupmold.service.Parts;
import layupmold.service.store.Sha256;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.jdbc.core.simple.JdbcClient;

class ApiKeysTest {

    private static KeyRing keys;

    @BeforeAll
    static void start() throws Exception {
        keys = new KeyRing();
    }

    @AfterAll
    static void stop() {
        keys.close();
    }

    @Test
    void theFirstKeyIsInAFileForItsOwnerOnly() throws Exception {
        assertEquals("rw-------", PosixFilePermissions.toString(Files.getPosixFilePermissions(keys.firstKeyFile)));
        keys.admin().get("/v1/keys").then().statusCode(200).body("items.owner", hasItem("admin"))
                .body("items[0].key", nullValue());
    }

    @Test
    void onlyHashesAreKept() {
        String key = keys.key("hashed", "\"read\"", "");
        String secret = key.substring(key.length() - 43);
        List<Map<String, Object>> rows = keys.service.bean(JdbcClient.class)
                .sql("select * from api_key where owner = 'hashed'").query().listOfRows();
        assertEquals(1, rows.size());
        assertEquals(Sha256.hex(secret), rows.get(0).get("SECRET_HASH"));
        assertFalse(rows.toString().contains(secret), rows.toString());
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "Bearer", "Bearer nonsense", "Bearer lm_0123456789abcdef_0123456789abcdefghijklmnopqrstuvwxyzABCDEFG",
        "Basic YTpi", "Bearer \"; drop table api_key"})
    void withoutAKeyThatHoldsThereIsNoAnswer(String authorization) {
        keys.service.request().header("Authorization", authorization).get("/v1/molds").then().statusCode(401)
                .contentType("application/problem+json")
                .header("WWW-Authenticate", startsWith("Bearer"))
                .body("type", equalTo("https://layupmold.invalid/problems/unauthenticated"));
    }

    @Test
    void aKeyWithAnotherSecretIsNotTheKey() {
        String key = keys.key("guessed", "\"read\"", "");
        String other = key.substring(0, key.length() - 1) + (key.endsWith("A") ? "B" : "A");
        keys.with(key).get("/v1/molds").then().statusCode(200);
        keys.with(other).get("/v1/molds").then().statusCode(401);
    }

    @Test
    void aKeyInTheQueryIsNotRead() {
        keys.service.request().queryParam("access_token", keys.key("queried", "\"read\"", "")).get("/v1/molds").then()
                .statusCode(401);
    }

    @Test
    void withdrawnAndExpiredKeysDoNotWork() {
        String key = keys.key("gone", "\"read\"", "");
        keys.with(key).get("/v1/molds").then().statusCode(200);
        keys.admin().delete("/v1/keys/" + key.substring(3, 19)).then().statusCode(204);
        keys.with(key).get("/v1/molds").then().statusCode(401);
        keys.admin().delete("/v1/keys/" + key.substring(3, 19)).then().statusCode(404);
        keys.with(keys.key("late", "\"read\"", ",\"expiresAt\":\"2020-01-01T00:00:00Z\"")).get("/v1/molds").then()
                .statusCode(401);
    }

    @Test
    void aRepeatedOrderWithItsKeyMakesOneKeyAndTellsItOnce() {
        String order = "{\"owner\":\"once\",\"scopes\":[\"read\"]}";
        String id = keys.admin().header("Idempotency-Key", "order-1").contentType("application/json").body(order)
                .post("/v1/keys").then().statusCode(201).body("key", startsWith("lm_")).extract().path("id");
        keys.admin().header("Idempotency-Key", "order-1").contentType("application/json").body(order).post("/v1/keys")
                .then().statusCode(201).body("id", equalTo(id)).body("key", nullValue());
        keys.admin().header("Idempotency-Key", "two words").contentType("application/json").body(order).post("/v1/keys")
                .then().statusCode(400);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', value = {
        "{\"owner\":\"a\",\"scopes\":[]}|/scopes",
        "{\"owner\":\"a\",\"scopes\":[\"root\"]}|/scopes/0", "{\"owner\":\"sub:a\",\"scopes\":[\"read\"]}|/owner",
        "{\"owner\":\"a\",\"scopes\":[\"read\"],\"requestsPerMinute\":0}|/requestsPerMinute",
        "{\"owner\":\"a\",\"scopes\":[\"read\"],\"expires\":1}|/expires"})
    void ordersThatBreakTheContractAreToldWhere(String order, String pointer) {
        keys.admin().contentType("application/json").body(order).post("/v1/keys").then().statusCode(422)
                .body("errors.pointer", hasItem(startsWith(pointer)));
    }

    @Test
    void anOrderWithoutScopesIsRefused() {
        keys.admin().contentType("application/json").body("{\"owner\":\"a\"}").post("/v1/keys").then().statusCode(422)
                .body("errors.code", hasItem("missing"));
    }

    @Test
    void requestsAMinuteAreBounded() {
        String key = keys.key("hasty", "\"read\"", ",\"requestsPerMinute\":3");
        for (int i = 0; i < 3; i++) {
            keys.with(key).get("/v1/molds").then().statusCode(200);
        }
        keys.with(key).get("/v1/molds").then().statusCode(429).contentType("application/problem+json")
                .header("Retry-After", matchesPattern("([1-9]|1[0-9]|2[01])"))
                .body("type", equalTo("https://layupmold.invalid/problems/too-many-requests"));
        keys.with(keys.key("patient", "\"read\"", "")).get("/v1/molds").then().statusCode(200);
    }

    @Test
    void theSizeOfAPartIsBoundedByTheKey() {
        String key = keys.key("small", "\"submit\"", ",\"maxPartBytes\":283");
        byte[] part = Parts.tetrahedron(20);
        assertEquals(284, part.length);
        keys.with(key).contentType("model/stl").body(part).post("/v1/molds").then().statusCode(413)
                .body("detail", containsString("283"));
        keys.with(key).multiPart("part", "a.stl", part).post("/v1/molds").then().statusCode(413);
        keys.with(keys.key("fits", "\"submit\"", ",\"maxPartBytes\":284")).contentType("model/stl").body(part)
                .post("/v1/molds").then().statusCode(202);
    }

    @Test
    void healthIsOpenAndMetricsAreForAdmins() {
        keys.service.request().get("/actuator/health/readiness").then().statusCode(200);
        keys.service.request().get("/actuator/prometheus").then().statusCode(401);
        keys.with(keys.key("reader", "\"read\"", "")).get("/actuator/prometheus").then().statusCode(403);
        keys.admin().get("/actuator/prometheus").then().statusCode(200);
        keys.service.request().get("/openapi.yaml").then().statusCode(200);
        keys.service.request().redirects().follow(false).get("/docs").then().statusCode(not(401));
    }

    @Test
    void aKeyNeverShowsInItsOwnWords() {
        KeySecret secret = KeySecret.random();
        assertFalse(secret.toString().contains(secret.secret()));
        assertTrue(KeySecret.parse(secret.token()).orElseThrow().matches(secret.hash()));
    }
}
