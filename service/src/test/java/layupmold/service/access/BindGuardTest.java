package layupmold.service.access;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.nio.file.Path;
import layupmold.service.CubeMaker;
import layupmold.service.RunningService;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.core.NestedExceptionUtils;

class BindGuardTest {

    @ParameterizedTest
    @ValueSource(strings = {"server.address=0.0.0.0", "server.address=::", "server.address=", "management.server.port=0"})
    void anOpenServiceDoesNotStart(String setting) {
        RuntimeException refused = assertThrows(RuntimeException.class,
                () -> RunningService.start(new CubeMaker(), setting).close());
        Throwable cause = NestedExceptionUtils.getMostSpecificCause(refused);
        assertEquals(OpenServiceException.class, cause.getClass(), cause::toString);
        assertNotNull(new OpenServiceAdvice().analyze(refused).getAction());
    }

    @Test
    void itStartsWithKeys(@TempDir Path folder) {
        try (RunningService service = RunningService.start(new CubeMaker(), "server.address=0.0.0.0",
                "layupmold.access.api-keys=true", "layupmold.access.first-key-file=" + folder.resolve("key"))) {
            service.request().get("/v1/molds").then().statusCode(401);
        }
    }

    @Test
    void itStartsWhenForced() {
        try (RunningService service = RunningService.start(new CubeMaker(), "server.address=0.0.0.0",
                "layupmold.access.open=true")) {
            service.request().get("/v1/molds").then().statusCode(200);
            service.request().get("/v1/keys").then().statusCode(404);
        }
    }
}
