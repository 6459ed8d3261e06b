package layupmold.service.http;

import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import layupmold.api.batch.SuitSummary;
import layupmold.service.access.Callers;
import layupmold.service.batch.BatchRow;
import layupmold.service.batch.BatchTable;
import layupmold.service.batch.BatchView;
import layupmold.service.batch.SuitBundle;
import layupmold.service.batch.SuitSummaries;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import org.springframework.http.ContentDisposition;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RestController;
import org.springframework.web.servlet.mvc.method.annotation.StreamingResponseBody;

/** What comes of a suit: bundle and summary. */
@RestController
class SuitController {

    private static final MediaType ZIP = MediaType.valueOf("application/zip");
    private static final MediaType HTML = MediaType.valueOf("text/html;charset=UTF-8");

    private final BatchTable batches;
    private final BatchView view;
    private final SuitBundle bundle;
    private final SuitSummaries summaries;

    SuitController(BatchTable batches, BatchView view, SuitBundle bundle, SuitSummaries summaries) {
        this.batches = batches;
        this.view = view;
        this.bundle = bundle;
        this.summaries = summaries;
    }

    @GetMapping("/v1/batches/{id}/bundle.zip")
    ResponseEntity<StreamingResponseBody> bundle(@PathVariable String id, HttpServletRequest request) {
        BatchRow batch = find(id, request, ZIP);
        if (!view.resource(batch).status().isFinal()) {
            throw notReady(id, "The suit is not finished.");
        }
        String disposition = ContentDisposition.attachment().filename("suit.zip").build().toString();
        return ResponseEntity.ok().contentType(ZIP).header(HttpHeaders.CONTENT_DISPOSITION, disposition)
                .header(HttpHeaders.CACHE_CONTROL, "no-cache").body(out -> bundle.write(batch, out));
    }

    @GetMapping("/v1/batches/{id}/summary.json")
    ResponseEntity<SuitSummary> summary(@PathVariable String id, HttpServletRequest request) throws IOException {
        return ResponseEntity.ok().contentType(Media.JSON).header(HttpHeaders.CACHE_CONTROL, "no-cache")
                .body(summaries.of(sorted(id, request, Media.JSON)));
    }

    @GetMapping("/v1/batches/{id}/summary.html")
    ResponseEntity<byte[]> page(@PathVariable String id, HttpServletRequest request) throws IOException {
        String page = bundle.page(sorted(id, request, MediaType.TEXT_HTML));
        return ResponseEntity.ok().contentType(HTML).header(HttpHeaders.CACHE_CONTROL, "no-cache")
                .header("X-Content-Type-Options", "nosniff").body(page.getBytes(StandardCharsets.UTF_8));
    }

    private BatchRow sorted(String id, HttpServletRequest request, MediaType type) {
        BatchRow batch = find(id, request, type);
        if (!batch.sorted()) {
            throw notReady(id, "The parts are being compared.");
        }
        return batch;
    }

    private BatchRow find(String id, HttpServletRequest request, MediaType type) {
        Negotiation.require(request.getHeader(HttpHeaders.ACCEPT), List.of(type));
        return batches.find(id, Callers.owner(request)).orElseThrow(
                () -> new ProblemException(ProblemKind.NOT_FOUND, "There is no batch " + id + "."));
    }

    private static ProblemException notReady(String id, String detail) {
        return new ProblemException(ProblemKind.NOT_READY, detail, BatchView.path(id), List.of(), List.of());
    }
}
