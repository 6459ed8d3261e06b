package layupmold.service.access;

import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.not;
import static org.hamcrest.Matchers.oneOf;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.springframework.web.servlet.mvc.method.annotation.RequestMappingHandlerMapping;

/** Every operation of the contract lets in the scope it names, and no other. */
class ScopesTest {

    private static final List<String> SCOPES = List.of("submit", "read", "farm", "admin");

    private static KeyRing keys;
    private static Map<String, String> keyByScope;

    @BeforeAll
    static void start() throws Exception {
        keys = new KeyRing();
        keyByScope = SCOPES.stream().collect(Collectors.toMap(Function.identity(),
                scope -> keys.key("scope-" + scope, "\"" + scope + "\"", "")));
    }

    @AfterAll
    static void stop() {
        keys.close();
    }

    static Stream<ContractRules.Rule> rules() {
        return ContractRules.read().stream().filter(rule -> rule.path().startsWith("/v1/"));
    }

    @ParameterizedTest
    @MethodSource("rules")
    void onlyItsScopeIsLetIn(ContractRules.Rule rule) {
        assertTrue(SCOPES.contains(rule.scope()), rule + " names no scope");
        String path = rule.path().replaceAll("\\{[^}]+}", "0123456789abcdef");
        String method = rule.method().name();
        keys.service.request().request(method, path).then().statusCode(401);
        for (String scope : SCOPES) {
            keys.with(keyByScope.get(scope)).request(method, path).then()
                    .statusCode(scope.equals(rule.scope()) ? not(oneOf(401, 403)) : equalTo(403));
        }
    }

    @Test
    void everyAddressOfTheServiceIsInTheContract() {
        Set<String> served = new TreeSet<>();
        keys.service.bean("requestMappingHandlerMapping", RequestMappingHandlerMapping.class).getHandlerMethods().keySet()
                .forEach(mapping -> mapping.getMethodsCondition().getMethods()
                        .forEach(method -> mapping.getPatternValues().forEach(path -> served.add(method + " " + path))));
        served.removeIf(address -> !address.contains(" /v1/"));
        Set<String> contract = rules().filter(rule -> !rule.method().name().equals("HEAD"))
                .map(rule -> rule.method() + " " + rule.path()).collect(Collectors.toCollection(TreeSet::new));
        assertEquals(contract, served);
    }

    @Test
    void whatIsNotInTheContractIsClosed() {
        keys.admin().get("/v1/other").then().statusCode(403);
        keys.service.request().get("/v1/other").then().statusCode(401);
    }
}
