package layupmold.service;

import io.restassured.RestAssured;
import io.restassured.config.EncoderConfig;
import io.restassured.config.RestAssuredConfig;
import io.restassured.specification.RequestSpecification;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
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
        List<String> all = new ArrayList<>(List.of(
                "--server.port=0",
                "--spring.datasource.url=jdbc:h2:file:" + home.resolve("db") + ";WRITE_DELAY=0",
                "--layupmold.store.folder=" + home.resolve("blobs"),
                "--logging.level.root=WARN"));
        for (String setting : settings) {
            all.add("--" + setting);
        }
        SpringApplication application = new SpringApplication(LayupmoldService.class);
        if (maker != null) {
            application.addInitializers(context -> ((GenericApplicationContext) context)
                    .registerBean("testMaker", MoldMaker.class, () -> maker, bean -> bean.setPrimary(true)));
        }
        return new RunningService((ServletWebServerApplicationContext) application.run(all.toArray(String[]::new)));
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
