package layupmold.samples;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/** The packaged service as a child process on a free loopback port; it ends with {@link #close} or with this process. */
final class ServiceProcess implements AutoCloseable {

    private static final Duration READY_WITHIN = Duration.ofMinutes(4);
    private static final int STOP_WITHIN_S = 30;

    private final Process process;
    private final URI root;
    private final Path log;
    private final Thread whenInterrupted;
    private Duration readyAfter;

    private ServiceProcess(Process process, URI root, Path log) {
        this.process = process;
        this.root = root;
        this.log = log;
        this.whenInterrupted = new Thread(process::destroy);
    }

    /**
     * Starts the service and waits until it is ready.
     *
     * @param jar the runnable jar; class data beside it are used if they are there
     * @param folder for its data and its log
     */
    static ServiceProcess start(Path jar, Path folder) throws IOException, InterruptedException {
        return start(jar, Files.exists(classData(jar)) ? sharing(jar) : List.of(), folder);
    }

    /** Options that share the class data beside a jar. */
    static List<String> sharing(Path jar) {
        return List.of("-XX:SharedArchiveFile=" + classData(jar));
    }

    private static Path classData(Path jar) {
        return Path.of(jar.toAbsolutePath().toString().replaceFirst("[.]jar$", ".jsa"));
    }

    /** @param options for its virtual machine, besides those of {@code service/deploy} */
    static ServiceProcess start(Path jar, List<String> options, Path folder) throws IOException, InterruptedException {
        Files.createDirectories(folder);
        Path log = folder.resolve("service.log");
        int port = freePort();
        List<String> command = new ArrayList<>(List.of(java(), "-Xmx2g", "-XX:ThreadPriorityPolicy=1",
                "-XX:JavaPriority1_To_OSPriority=15"));
        command.addAll(options);
        command.addAll(List.of("-jar", jar.toAbsolutePath().toString(),
                "--server.port=" + port,
                "--spring.datasource.url=jdbc:h2:file:" + folder.resolve("db").toAbsolutePath() + ";WRITE_DELAY=0",
                "--layupmold.store.folder=" + folder.resolve("blobs").toAbsolutePath()));
        long begin = System.nanoTime();
        Process process = new ProcessBuilder(command).directory(folder.toFile())
                .redirectErrorStream(true).redirectOutput(log.toFile()).start();
        ServiceProcess service = new ServiceProcess(process, URI.create("http://127.0.0.1:" + port + "/"), log);
        Runtime.getRuntime().addShutdownHook(service.whenInterrupted);
        try {
            service.awaitReady();
            service.readyAfter = Duration.ofNanos(System.nanoTime() - begin);
            return service;
        } catch (IOException | InterruptedException | RuntimeException e) {
            service.close();
            throw e;
        }
    }

    private static String java() {
        return Path.of(System.getProperty("java.home"), "bin", "java").toString();
    }

    private static int freePort() throws IOException {
        try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            return socket.getLocalPort();
        }
    }

    private void awaitReady() throws IOException, InterruptedException {
        HttpClient http = HttpClient.newBuilder().connectTimeout(Duration.ofSeconds(2)).build();
        HttpRequest request = HttpRequest.newBuilder(root.resolve("/actuator/health/readiness"))
                .timeout(Duration.ofSeconds(5)).build();
        long until = System.nanoTime() + READY_WITHIN.toNanos();
        while (System.nanoTime() < until) {
            if (!process.isAlive()) {
                throw new IOException("the service ended at once with exit code " + process.exitValue() + lastWords());
            }
            try {
                if (http.send(request, BodyHandlers.discarding()).statusCode() == 200) {
                    return;
                }
            } catch (IOException notYet) {
                // the port opens late in its start
            }
            Thread.sleep(20);
        }
        throw new IOException("the service was not ready within " + READY_WITHIN.toSeconds() + " s" + lastWords());
    }

    private String lastWords() throws IOException {
        List<String> lines = Files.readAllLines(log);
        return "; its log, " + log + ", ends:\n" + String.join("\n", lines.subList(Math.max(0, lines.size() - 15),
                lines.size()));
    }

    URI root() {
        return root;
    }

    /** From before the process began to the first answer that it is ready. */
    Duration readyAfter() {
        return readyAfter;
    }

    /** Processor time that it has used so far; zero where the system does not tell. */
    Duration cpu() {
        return process.info().totalCpuDuration().orElse(Duration.ZERO);
    }

    Path log() {
        return log;
    }

    @Override
    public void close() {
        process.destroy();
        try {
            if (!process.waitFor(STOP_WITHIN_S, TimeUnit.SECONDS)) {
                process.destroyForcibly();
            }
            Runtime.getRuntime().removeShutdownHook(whenInterrupted);
        } catch (InterruptedException e) {
            process.destroyForcibly();
            Thread.currentThread().interrupt();
        } catch (IllegalStateException e) {
            // the machine is shutting down already, and the hook has run
        }
    }
}
