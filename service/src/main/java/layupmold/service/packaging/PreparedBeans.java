package layupmold.service.packaging;

import java.util.List;
import java.util.stream.Stream;
import org.springframework.boot.context.event.ApplicationEnvironmentPreparedEvent;
import org.springframework.boot.context.properties.source.ConfigurationPropertyName;
import org.springframework.boot.context.properties.source.ConfigurationPropertySource;
import org.springframework.boot.context.properties.source.ConfigurationPropertySources;
import org.springframework.boot.context.properties.source.IterableConfigurationPropertySource;
import org.springframework.context.ApplicationListener;
import org.springframework.core.Ordered;
import org.springframework.core.SpringProperties;
import org.springframework.core.env.ConfigurableEnvironment;
import org.springframework.core.env.PropertySource;
import org.springframework.util.ClassUtils;

/**
 * Starts from the list of beans that the build has worked out, which spares a fifth of the start. Which beans there are
 * was decided by the settings of the build; so where settings of Spring Boot's own may ask for others, such as a port of
 * its own for management, the list is made anew as ever. Our settings never decide that.
 */
public final class PreparedBeans implements ApplicationListener<ApplicationEnvironmentPreparedEvent>, Ordered {

    private static final String OWN_SETTINGS = "class path resource [application.yml]";
    private static final List<ConfigurationPropertyName> FRAMEWORK = names("spring", "management", "server");
    /** Settings of the framework that only tell beans how to be. */
    private static final List<ConfigurationPropertyName> PLAIN = names("server.port", "server.address", "server.ssl",
            "spring.datasource.url", "spring.datasource.username", "spring.datasource.password", "spring.datasource.hikari",
            "spring.config", "spring.application.name", "spring.application.pid", "spring.application.version");

    private final String list;

    /** @param application the class whose beans the build has listed, if it was packaged */
    public PreparedBeans(Class<?> application) {
        list = application.getName() + "__ApplicationContextInitializer";
    }

    @Override
    public void onApplicationEvent(ApplicationEnvironmentPreparedEvent event) {
        if (ClassUtils.isPresent(list, null) && fit(event.getEnvironment())) {
            SpringProperties.setFlag("spring.aot.enabled");
        }
    }

    /** Whether no setting besides the packaged ones may ask for other beans. */
    static boolean fit(ConfigurableEnvironment environment) {
        for (ConfigurationPropertySource source : ConfigurationPropertySources.get(environment)) {
            if (!isPackaged(source) && source instanceof IterableConfigurationPropertySource settings
                    && settings.stream().anyMatch(name -> within(FRAMEWORK, name) && !within(PLAIN, name))) {
                return false;
            }
        }
        return true;
    }

    private static boolean isPackaged(ConfigurationPropertySource source) {
        return source.getUnderlyingSource() instanceof PropertySource<?> file && file.getName().contains(OWN_SETTINGS);
    }

    private static boolean within(List<ConfigurationPropertyName> roots, ConfigurationPropertyName name) {
        return roots.stream().anyMatch(root -> root.equals(name) || root.isAncestorOf(name));
    }

    private static List<ConfigurationPropertyName> names(String... names) {
        return Stream.of(names).map(ConfigurationPropertyName::of).toList();
    }

    /** After the settings have been read. */
    @Override
    public int getOrder() {
        return Ordered.LOWEST_PRECEDENCE;
    }
}
