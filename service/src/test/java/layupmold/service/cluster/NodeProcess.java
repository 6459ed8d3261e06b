package layupmold.service.cluster;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.ServerSocket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.awaitility.Awaitility;

/** A child JVM that runs one node. Killing it is SIGKILL: no shutdown hook, no flush, no goodbye. */
final class NodeProcess implements AutoCloseable {

    static final HttpClient CLIENT = HttpClient.newBuilder().connectTimeout(Duration.ofSeconds(5)).build();

    private final int port;
    private final Process process;

    private NodeProcess(int port, Process process) {
        this.port = port;
        this.process = process;
    }

    /** Starts a node without waiting for it. */
    static NodeProcess start(Path log, String... settings) {
        int port = freePort();
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(), "-Xmx512m", "-XX:TieredStopAtLevel=1",
                "-cp", System.getProperty("java.class.path"), ChildNode.class.getName(), "server.port=" + port));
        command.addAll(Arrays.asList(settings));
        try {
            return new NodeProcess(port, new ProcessBuilder(command).redirectErrorStream(true)
                    .redirectOutput(ProcessBuilder.Redirect.appendTo(log.toFile())).start());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static int freePort() {
        try (ServerSocket socket = new ServerSocket(0)) {
            return socket.getLocalPort();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    NodeProcess awaitReady() {
        Awaitility.await().atMost(Duration.ofMinutes(4)).pollInterval(Duration.ofMillis(100))
                .failFast("the node ended", () -> !process.isAlive()).until(this::isReady);
        return this;
    }

    boolean isReady() {
        try {
            return process.isAlive() && send(HttpRequest.newBuilder(uri("/actuator/health/readiness"))
                    .timeout(Duration.ofSeconds(5))).statusCode() == 200;
        } catch (IOException notYet) {
            return false;
        }
    }

    HttpResponse<String> send(HttpRequest.Builder request) throws IOException {
        try {
            return CLIENT.send(request.build(), HttpResponse.BodyHandlers.ofString());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IOException(e);
        }
    }

    URI uri(String path) {
        return URI.create("http://127.0.0.1:" + port + path);
    }

    void kill() {
        process.destroyForcibly();
        awaitExit();
    }

    /** Asks the node to stop, as an init system would. */
    void terminate() {
        process.destroy();
        awaitExit();
    }

    private void awaitExit() {
        try {
            if (!process.waitFor(60, TimeUnit.SECONDS)) {
                throw new IllegalStateException("the node does not stop");
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    @Override
    public void close() {
        kill();
    }
}
