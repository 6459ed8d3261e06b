package layupmold.samples.client;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Duration;
import java.util.function.Consumer;
import layupmold.api.ContractJson;
import layupmold.api.batch.BatchResource;
import layupmold.api.batch.SuitSummary;
import layupmold.api.mold.MoldResource;
import layupmold.api.problem.Problem;
import layupmold.api.recipe.MoldRecipe;
import layupmold.api.report.MoldReportDocument;

/** Posts parts and fetches molds. Thread-safe; blocking. */
public final class MoldClient {

    private static final Duration PATIENCE = Duration.ofSeconds(60);
    private static final Duration POLL = Duration.ofMillis(250);

    private final URI service;
    private final String key;
    private final HttpClient http = HttpClient.newBuilder()
            .version(HttpClient.Version.HTTP_1_1).connectTimeout(Duration.ofSeconds(10)).build();

    /** @param service root of the service, such as {@code http://127.0.0.1:8080/} */
    public MoldClient(URI service) {
        this(service, null);
    }

    /**
     * @param service root of the service
     * @param key a key of the service or an access token, for a service that asks for one; or null
     */
    public MoldClient(URI service, String key) {
        this.service = service;
        this.key = key;
    }

    /**
     * Posts a part; the answer comes as soon as the part is stored.
     *
     * @param part mesh file
     * @param recipe what to make of it
     * @param idempotencyKey repeats of one post carry the same key and give the same mold; or null
     * @throws ServiceProblem if part or recipe is refused
     */
    public MoldResource post(Path part, MoldRecipe recipe, String idempotencyKey)
            throws IOException, InterruptedException {
        MultipartForm form = new MultipartForm().file("part", part).json("recipe", ContractJson.write(recipe));
        HttpRequest.Builder request = to("/v1/molds").header("Content-Type", form.mediaType())
                .header("Accept", "application/json").POST(form.body());
        if (idempotencyKey != null) {
            request.header("Idempotency-Key", idempotencyKey);
        }
        return resource(http.send(request.build(), BodyHandlers.ofByteArray()));
    }

    /** Where a mold stands now. */
    public MoldResource get(String id) throws IOException, InterruptedException {
        HttpRequest request = to("/v1/molds/" + id).header("Accept", "application/json").build();
        return resource(http.send(request, BodyHandlers.ofByteArray()));
    }

    /**
     * Polls until nothing more will happen.
     *
     * @param watcher told about every state that differs from the one before
     * @return the final state: done, rejected, failed or cancelled
     */
    public MoldResource await(MoldResource posted, Consumer<MoldResource> watcher)
            throws IOException, InterruptedException {
        MoldResource now = posted;
        watcher.accept(now);
        while (!now.status().isFinal()) {
            Thread.sleep(POLL.toMillis());
            MoldResource next = get(posted.id());
            if (!next.equals(now)) {
                watcher.accept(next);
            }
            now = next;
        }
        return now;
    }

    /** Fetches one of a mold's {@link MoldResource#links} into a file, which appears only once it is whole. */
    public void download(String link, Path file) throws IOException, InterruptedException {
        Path folder = file.toAbsolutePath().getParent();
        Files.createDirectories(folder);
        Path unfinished = Files.createTempFile(folder, file.getFileName().toString(), ".part");
        try {
            HttpResponse<Path> answer = http.send(to(link).build(), BodyHandlers.ofFile(unfinished));
            if (answer.statusCode() != 200) {
                throw problem(answer.statusCode(), Files.readAllBytes(unfinished));
            }
            Files.move(unfinished, file, StandardCopyOption.REPLACE_EXISTING);
        } finally {
            Files.deleteIfExists(unfinished);
        }
    }

    /** Figures and findings of a finished mold. */
    public MoldReportDocument report(MoldResource mold) throws IOException, InterruptedException {
        return read(http.send(to(mold.links().report()).build(), BodyHandlers.ofByteArray()), MoldReportDocument.class);
    }

    /**
     * Posts a suit; the answer comes as soon as it is stored.
     *
     * @param zip meshes and {@code suit.json} or {@code suit.csv}; see {@link SuitFolder}
     * @param idempotencyKey repeats of one post carry the same key and give the same suit; or null
     * @throws ServiceProblem if zip or manifest is refused
     */
    public BatchResource postSuit(Path zip, String idempotencyKey) throws IOException, InterruptedException {
        HttpRequest.Builder request = to("/v1/batches").header("Content-Type", "application/zip")
                .header("Accept", "application/json").POST(BodyPublishers.ofFile(zip));
        if (idempotencyKey != null) {
            request.header("Idempotency-Key", idempotencyKey);
        }
        return read(http.send(request.build(), BodyHandlers.ofByteArray()), BatchResource.class);
    }

    /**
     * Polls until nothing more will happen to any part of a suit.
     *
     * @param watcher told about every state that differs from the one before
     */
    public BatchResource awaitSuit(BatchResource posted, Consumer<BatchResource> watcher)
            throws IOException, InterruptedException {
        BatchResource now = posted;
        watcher.accept(now);
        while (!now.status().isFinal()) {
            Thread.sleep(POLL.toMillis());
            HttpRequest request = to(posted.links().self()).header("Accept", "application/json").build();
            BatchResource next = read(http.send(request, BodyHandlers.ofByteArray()), BatchResource.class);
            if (!next.equals(now)) {
                watcher.accept(next);
            }
            now = next;
        }
        return now;
    }

    /** What a suit needs in all. */
    public SuitSummary summary(BatchResource suit) throws IOException, InterruptedException {
        HttpRequest request = to(suit.links().summary()).header("Accept", "application/json").build();
        return read(http.send(request, BodyHandlers.ofByteArray()), SuitSummary.class);
    }

    HttpResponse<byte[]> send(HttpRequest request) throws IOException, InterruptedException {
        return http.send(request, BodyHandlers.ofByteArray());
    }

    HttpRequest.Builder to(String path) {
        HttpRequest.Builder request = HttpRequest.newBuilder(service.resolve(path)).timeout(PATIENCE);
        return key == null ? request : request.header("Authorization", "Bearer " + key);
    }

    private static MoldResource resource(HttpResponse<byte[]> answer) throws IOException {
        return read(answer, MoldResource.class);
    }

    static <T> T read(HttpResponse<byte[]> answer, Class<T> type) throws IOException {
        if (answer.statusCode() / 100 != 2) {
            throw problem(answer.statusCode(), answer.body());
        }
        return ContractJson.read(answer.body(), type);
    }

    private static ServiceProblem problem(int status, byte[] body) {
        try {
            return new ServiceProblem(ContractJson.read(body, Problem.class));
        } catch (IOException e) {
            // Something in between answered, not the service.
            return new ServiceProblem(new Problem("about:blank", "Unexpected answer", status, "HTTP status " + status,
                    null, null, null));
        }
    }
}
