package layupmold.service.http;

import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;

import layupmold.service.Parts;
import layupmold.service.RunningService;
import org.junit.jupiter.api.Test;

class TriangleLimitTest {

    @Test
    void aPartWithMoreTrianglesThanConfiguredIsRejected() {
        try (RunningService service = RunningService.start(null, "layupmold.jobs.max-triangles=3")) {
            service.request().header("Prefer", "wait=30").contentType("model/stl").body(Parts.tetrahedron(30))
                    .post("/v1/molds").then().statusCode(422)
                    .body("findings[0].stage", equalTo("read")).body("detail", containsString("3"));
        }
    }
}
