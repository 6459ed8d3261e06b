package layupmold.service;

import layupmold.service.packaging.PreparedBeans;
import org.springframework.boot.SpringApplication;
import org.springframework.boot.autoconfigure.SpringBootApplication;
import org.springframework.boot.autoconfigure.aop.AopAutoConfiguration;
import org.springframework.boot.context.properties.ConfigurationPropertiesScan;
import org.springframework.boot.persistence.autoconfigure.PersistenceExceptionTranslationAutoConfiguration;
import org.springframework.boot.transaction.autoconfigure.TransactionAutoConfiguration;
import org.springframework.context.ConfigurableApplicationContext;
import org.springframework.scheduling.annotation.EnableScheduling;

/**
 * The service's process. What is left out would give beans proxies, which nothing here asks for: transactions are written
 * out, and {@code JdbcClient} translates the database's exceptions itself.
 */
@SpringBootApplication(proxyBeanMethods = false, exclude = {AopAutoConfiguration.class, TransactionAutoConfiguration.class,
        PersistenceExceptionTranslationAutoConfiguration.class})
@ConfigurationPropertiesScan
@EnableScheduling
public class LayupmoldService {

    public static void main(String[] args) {
        start(args);
    }

    /** The running service. */
    public static ConfigurableApplicationContext start(String... args) {
        SpringApplication application = new SpringApplication(LayupmoldService.class);
        application.setMainApplicationClass(LayupmoldService.class);
        application.addListeners(new PreparedBeans(LayupmoldService.class));
        return application.run(args);
    }
}
