package layupmold.service.http;

import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.net.URI;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import layupmold.api.batch.BatchList;
import layupmold.api.batch.BatchResource;
import layupmold.service.access.Callers;
import layupmold.service.batch.BatchRow;
import layupmold.service.batch.BatchTable;
import layupmold.service.batch.BatchView;
import layupmold.service.batch.Batches;
import layupmold.service.events.BatchWatch;
import layupmold.service.idempotency.KeyedRequest;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import layupmold.service.settings.WaitSettings;
import org.springframework.http.HttpHeaders;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.DeleteMapping;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;

/** Takes suits and shows where they stand. */
@RestController
class BatchController {

    private static final int LARGEST_PAGE = 200;
    private static final String SECONDS_UNTIL_NEXT_LOOK = "1";

    private final SuitUploadReader uploads;
    private final Batches batches;
    private final BatchTable table;
    private final BatchView view;
    private final BatchWatch watch;
    private final WaitSettings waiting;

    BatchController(SuitUploadReader uploads, Batches batches, BatchTable table, BatchView view, BatchWatch watch,
            WaitSettings waiting) {
        this.uploads = uploads;
        this.batches = batches;
        this.table = table;
        this.view = view;
        this.watch = watch;
        this.waiting = waiting;
    }

    @PostMapping("/v1/batches")
    CompletableFuture<ResponseEntity<BatchResource>> post(HttpServletRequest request) throws IOException {
        requireJson(request);
        Preferences preferences = Preferences.parse(request.getHeaders("Prefer"));
        KeyedRequest keyed = KeyedRequest.of(request);
        BatchRow batch = batches.accept(uploads.read(request), keyed);
        return watch.untilFinished(batch, preferences.wait(Duration.ZERO, waiting.most())).thenApply(now -> {
            BatchResource resource = now == null ? view.resource(batch) : now;
            ResponseEntity.BodyBuilder answer = resource.status().isFinal() ? ResponseEntity.ok()
                    : ResponseEntity.accepted().header(HttpHeaders.RETRY_AFTER, SECONDS_UNTIL_NEXT_LOOK);
            return preferences.applied(answer.location(URI.create(BatchView.path(batch.id())))
                    .contentType(Media.JSON).body(resource));
        });
    }

    @GetMapping("/v1/batches")
    ResponseEntity<BatchList> list(@RequestParam(defaultValue = "50") int limit,
            @RequestParam(required = false) String cursor, HttpServletRequest request) {
        requireJson(request);
        if (limit < 1 || limit > LARGEST_PAGE) {
            throw new ProblemException(ProblemKind.BAD_REQUEST, "limit lies between 1 and " + LARGEST_PAGE + ".");
        }
        Cursor from = cursor == null ? Cursor.NEWEST : Cursor.parse(cursor);
        List<BatchRow> rows = table.page(Callers.owner(request), from.time(), from.id(), limit + 1);
        List<BatchRow> page = rows.subList(0, Math.min(limit, rows.size()));
        String next = rows.size() <= limit ? null : "/v1/batches?limit=" + limit + "&cursor="
                + Cursor.after(page.get(limit - 1).createdAt(), page.get(limit - 1).id());
        return ResponseEntity.ok().contentType(Media.JSON)
                .body(new BatchList(page.stream().map(view::resource).toList(), next));
    }

    @GetMapping("/v1/batches/{id}")
    CompletableFuture<ResponseEntity<BatchResource>> get(@PathVariable String id, HttpServletRequest request) {
        requireJson(request);
        Preferences preferences = Preferences.parse(request.getHeaders("Prefer"));
        return watch.untilFinished(find(id, request), preferences.wait(Duration.ZERO, waiting.most()))
                .thenApply(resource -> {
                    if (resource == null) {
                        throw notFound(id);
                    }
                    ResponseEntity.BodyBuilder answer = ResponseEntity.ok().header(HttpHeaders.CACHE_CONTROL, "no-cache");
                    if (!resource.status().isFinal()) {
                        answer.header(HttpHeaders.RETRY_AFTER, SECONDS_UNTIL_NEXT_LOOK);
                    }
                    return preferences.applied(answer.contentType(Media.JSON).body(resource));
                });
    }

    /** Cancelling twice is cancelling once, so there is nothing to remember of the key. */
    @PostMapping("/v1/batches/{id}/cancel")
    ResponseEntity<BatchResource> cancel(@PathVariable String id, HttpServletRequest request) {
        requireJson(request);
        KeyedRequest keyed = KeyedRequest.of(request);
        BatchRow batch = batches.cancel(id, keyed.owner()).orElseThrow(() -> notFound(id));
        return ResponseEntity.ok().contentType(Media.JSON).body(view.resource(batch));
    }

    @DeleteMapping("/v1/batches/{id}")
    ResponseEntity<Void> delete(@PathVariable String id, HttpServletRequest request) {
        if (!batches.delete(id, Callers.owner(request))) {
            throw notFound(id);
        }
        return ResponseEntity.noContent().build();
    }

    private BatchRow find(String id, HttpServletRequest request) {
        return table.find(id, Callers.owner(request)).orElseThrow(() -> notFound(id));
    }

    private static void requireJson(HttpServletRequest request) {
        Negotiation.require(request.getHeader(HttpHeaders.ACCEPT), List.of(Media.JSON));
    }

    private static ProblemException notFound(String id) {
        return new ProblemException(ProblemKind.NOT_FOUND, "There is no batch " + id + ".");
    }
}
