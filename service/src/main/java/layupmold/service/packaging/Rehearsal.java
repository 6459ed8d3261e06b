package layupmold.service.packaging;

import java.io.IOException;
import java.net.HttpURLConnection;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import layupmold.service.LayupmoldService;
import org.springframework.boot.web.server.context.WebServerApplicationContext;
import org.springframework.context.ConfigurableApplicationContext;

/**
 * Starts the service on a free port of this machine with an empty database, asks whether it is ready, and ends. Run with
 * {@code -XX:ArchiveClassesAtExit} it leaves the classes that a start takes, checked and linked, to be shared by later
 * ones. Argument: a folder for the store.
 */
public final class Rehearsal {

    private Rehearsal() {
    }

    public static void main(String[] arguments) throws IOException {
        Path store = Files.createDirectories(Path.of(arguments[0]));
        try (ConfigurableApplicationContext service = LayupmoldService.start("--server.address=127.0.0.1", "--server.port=0",
                "--spring.datasource.url=jdbc:h2:nioMemFS:rehearsal", "--layupmold.store.folder=" + store.toAbsolutePath())) {
            int port = ((WebServerApplicationContext) service).getWebServer().getPort();
            HttpURLConnection readiness = (HttpURLConnection) URI.create(
                    "http://127.0.0.1:" + port + "/actuator/health/readiness").toURL().openConnection();
            if (readiness.getResponseCode() != HttpURLConnection.HTTP_OK) {
                throw new IllegalStateException("not ready: " + readiness.getResponseCode());
            }
        }
    }
}
