package layupmold.service;

import io.restassured.RestAssured;
import io.restassured.config.EncoderConfig;
import io.restassured.config.RestAssuredConfig;
import io.restassured.specification.RequestSpecification;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import layupmold.service.making.MoldMaker;
import org.springframework.boot.SpringApplication;
import org.springframework.boot.web.server.servlet.context.ServletWebServerApplicationContext;
import org.springframework.context.support.GenericApplicationContext;

/** The service on a free port of this machine with a database and a store of its own. */
public final class RunningService implements AutoCloseable {

    private final ServletWebServerApplicationContext context;

    private RunningService(ServletWebServerApplicationContext context) {
        this.context = context;
    }

    /**
     * @param maker what makes the molds, or null for the real pipeline
     * @param settings further settings, as "name=value"
     */
    public static RunningService start(MoldMaker maker, String... settings) {
        Path home = newFolder();
        Map<String, String> all = new LinkedHashMap<>();
        all.put("server.port", "0");
        all.put("spring.datasource.url", "jdbc:h2:file:" + home.resolve("db") + ";WRITE_DELAY=0;DB_CLOSE_ON_EXIT=FALSE");
        all.put("layupmold.store.folder", home.resolve("blobs").toString());
        all.put("logging.level.root", "WARN");
        for (String setting : settings) {
            String[] nameAndValue = setting.split("=", 2);
            all.put(nameAndValue[0], nameAndValue[1]);
        }
        String[] arguments = all.entrySet().stream()
                .map(entry -> "--" + entry.getKey() + "=" + entry.getValue()).toArray(String[]::new);
        SpringApplication application = new SpringApplication(LayupmoldService.class);
        if (maker != null) {
            application.addInitializers(context -> ((GenericApplicationContext) context)
                    .registerBean("testMaker", MoldMaker.class, () -> maker, bean -> bean.setPrimary(true)));
        }
        return new RunningService((ServletWebServerApplicationContext) application.run(arguments));
    }

    private static Path newFolder() {
        try {
            return Files.createTempDirectory("layupmold-test");
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    public int port() {
        return context.getWebServer().getPort();
    }

    public <T> T bean(Class<T> type) {
        return context.getBean(type);
    }

    public <T> T bean(String name, Class<T> type) {
        return context.getBean(name, type);
    }

    /** A request whose answer is held against the contract. */
    public RequestSpecification request() {
        return RestAssured.given()
                .config(RestAssuredConfig.config().encoderConfig(
                        EncoderConfig.encoderConfig().appendDefaultContentCharsetToContentTypeIfUndefined(false)))
                .baseUri("http://127.0.0.1").port(port()).filter(new ContractFilter());
    }

    @Override
    public void close() {
        context.close();
    }
}
