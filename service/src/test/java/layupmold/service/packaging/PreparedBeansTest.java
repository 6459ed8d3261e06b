package layupmold.service.packaging;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.boot.context.properties.source.ConfigurationPropertySources;
import org.springframework.core.env.MapPropertySource;
import org.springframework.core.env.PropertySource;
import org.springframework.core.env.StandardEnvironment;
import org.springframework.core.env.SystemEnvironmentPropertySource;

class PreparedBeansTest {

    @ParameterizedTest
    @CsvSource({"server.port, true", "server.ssl.bundle, true", "layupmold.access.api-keys, true", "logging.level.root, true",
        "spring.datasource.url, true", "spring.datasource.hikari.maximum-pool-size, true", "user.home, true",
        "spring.datasource.type, false", "server.forward-headers-strategy, false", "management.server.port, false",
        "management.endpoints.web.exposure.include, false", "spring.threads.virtual.enabled, false",
        "spring.security.oauth2.resourceserver.jwt.issuer-uri, false"})
    void settingsOfTheFrameworkThatMayAskForOtherBeansDoNotFit(String name, boolean fits) {
        assertEquals(fits, PreparedBeans.fit(with(new MapPropertySource("arguments", Map.of(name, "1")))));
    }

    @Test
    void theEnvironmentCountsToo() {
        assertEquals(true, PreparedBeans.fit(with(variables("SPRING_DATASOURCE_URL"))));
        assertEquals(true, PreparedBeans.fit(with(variables("SERVER_ADDRESS"))));
        assertEquals(false, PreparedBeans.fit(with(variables("MANAGEMENT_SERVER_PORT"))));
        assertEquals(false, PreparedBeans.fit(with(variables("SPRING_SECURITY_OAUTH2_RESOURCESERVER_JWT_JWKSETURI"))));
    }

    @Test
    void packagedSettingsWereKnownToTheBuild() {
        String packaged = "Config resource 'class path resource [application.yml]' via location 'optional:classpath:/'";
        assertEquals(true, PreparedBeans.fit(with(new MapPropertySource(packaged, Map.of("spring.main.banner-mode", "off")))));
        String beside = "Config resource 'file [application.yml]' via location 'optional:file:./'";
        assertEquals(false, PreparedBeans.fit(with(new MapPropertySource(beside, Map.of("spring.main.banner-mode", "off")))));
    }

    private static SystemEnvironmentPropertySource variables(String name) {
        return new SystemEnvironmentPropertySource("test-systemEnvironment", Map.of(name, "1"));
    }

    private static StandardEnvironment with(PropertySource<?> settings) {
        StandardEnvironment environment = new StandardEnvironment();
        environment.getPropertySources().addFirst(settings);
        ConfigurationPropertySources.attach(environment);
        return environment;
    }
}
