package layupmold.service.idempotency;

import static org.hamcrest.Matchers.containsString;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import layupmold.api.ContractDocument;
import layupmold.service.CubeMaker;
import layupmold.service.RunningService;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.springframework.web.bind.annotation.RequestMethod;
import org.springframework.web.servlet.mvc.method.annotation.RequestMappingHandlerMapping;
import tools.jackson.databind.JsonNode;
import tools.jackson.dataformat.yaml.YAMLMapper;

/** Holds for every POST there is, so that a new one cannot forget it. */
class EveryPostTakesAKeyTest {

    private static RunningService service;

    @BeforeAll
    static void start() {
        service = RunningService.start(new CubeMaker());
    }

    @AfterAll
    static void stop() {
        service.close();
    }

    private static Set<String> posts() {
        Set<String> paths = new TreeSet<>();
        service.bean("requestMappingHandlerMapping", RequestMappingHandlerMapping.class).getHandlerMethods().keySet().stream()
                .filter(mapping -> mapping.getMethodsCondition().getMethods().contains(RequestMethod.POST))
                .forEach(mapping -> paths.addAll(mapping.getPatternValues()));
        assertTrue(paths.contains("/v1/molds"), paths.toString());
        return paths;
    }

    @Test
    void aKeyThatCannotBeOneIsRefused() {
        for (String path : posts()) {
            service.request().header("Idempotency-Key", "two words").post(path.replaceAll("\\{[^}]+}", "some-id")).then()
                    .statusCode(400).body("detail", containsString("idempotency key"));
        }
    }

    @Test
    void theContractNamesTheKey() {
        JsonNode contract = YAMLMapper.shared().readTree(ContractDocument.yaml());
        for (String path : posts()) {
            List<String> parameters = new ArrayList<>();
            contract.get("paths").path(path).path("post").path("parameters")
                    .forEach(parameter -> parameters.add(parameter.path("$ref").asString("")));
            assertTrue(parameters.contains("#/components/parameters/IdempotencyKey"), path);
        }
    }
}
