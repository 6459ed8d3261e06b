package layupmold.service.access;

import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.hasSize;
import static org.hamcrest.Matchers.notNullValue;
import static org.junit.jupiter.api.Assertions.assertNotEquals;

import io.restassured.response.Response;
import layupmold.service.Parts;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Nobody sees, learns of or touches another owner's molds. */
class OwnersTest {

    private static final byte[] PART = Parts.tetrahedron(22);
    private static final String ALL = "\"submit\",\"read\",\"farm\",\"admin\"";

    private static KeyRing keys;
    private static String ann;
    private static String ben;
    private static Response annsMold;

    @BeforeAll
    static void start() throws Exception {
        keys = new KeyRing();
        ann = keys.key("ann", ALL, "");
        ben = keys.key("ben", ALL, "");
        annsMold = post(ann, "same");
        annsMold.then().statusCode(200);
    }

    @AfterAll
    static void stop() {
        keys.close();
    }

    private static Response post(String key, String idempotencyKey) {
        return keys.with(key).header("Prefer", "wait=20").header("Idempotency-Key", idempotencyKey)
                .contentType("model/stl").body(PART).post("/v1/molds");
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "/events", "/mold.stl", "/mold.3mf", "/report.json", "/report.html", "/mold.glb",
        "/pictures/part.png", "/kit.json", "/kit/work-card.pdf"})
    void anotherOwnersMoldIsNotThere(String below) {
        keys.with(ben).get(annsMold.header("Location") + below).then().statusCode(404);
    }

    @Test
    void anotherOwnersMoldCannotBeTouched() {
        keys.with(ben).post(annsMold.header("Location") + "/cancel").then().statusCode(404);
        keys.with(ben).delete(annsMold.header("Location")).then().statusCode(404);
        keys.with(ann).get(annsMold.header("Location")).then().statusCode(200);
    }

    @Test
    void listsShowOnesOwn() {
        String carl = keys.key("carl", ALL, "");
        keys.with(carl).get("/v1/molds").then().statusCode(200).body("items", hasSize(0));
        keys.with(ann).get("/v1/molds").then().body("items.id", hasItem(annsMold.<String>path("id")));
    }

    @Test
    void theSamePartAndKeyOfAnotherOwnerIsWorkedOnAnew() {
        Response bens = post(ben, "same");
        bens.then().statusCode(200).body("startedAt", notNullValue());
        assertNotEquals(annsMold.header("Location"), bens.header("Location"));
    }

    @Test
    void anotherKeyOfTheSameOwnerSeesTheSameMolds() {
        keys.with(keys.key("ann", "\"read\"", "")).get(annsMold.header("Location")).then().statusCode(200);
    }
}
