package layupmold.service.http;

import jakarta.servlet.http.HttpServletRequest;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import layupmold.api.mold.MoldResource;
import layupmold.service.access.Callers;
import layupmold.service.events.MoldWatch;
import layupmold.service.idempotency.KeyedRequest;
import layupmold.service.jobs.MoldJobs;
import layupmold.service.jobs.MoldRow;
import layupmold.service.jobs.MoldTable;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import layupmold.service.settings.WaitSettings;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.DeleteMapping;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RestController;

/** One mold and its files. */
@RestController
class MoldController {

    private final MoldTable molds;
    private final MoldJobs jobs;
    private final MoldWatch watch;
    private final MoldAnswers answers;
    private final WaitSettings waiting;

    MoldController(MoldTable molds, MoldJobs jobs, MoldWatch watch, MoldAnswers answers, WaitSettings waiting) {
        this.molds = molds;
        this.jobs = jobs;
        this.watch = watch;
        this.answers = answers;
        this.waiting = waiting;
    }

    @GetMapping("/v1/molds/{id}")
    CompletableFuture<ResponseEntity<MoldResource>> get(@PathVariable String id, HttpServletRequest request) {
        require(request, Media.JSON);
        Preferences preferences = Preferences.parse(request.getHeaders("Prefer"));
        return watch.untilFinished(find(id, request), preferences.wait(Duration.ZERO, waiting.most()))
                .thenApply(row -> {
                    if (row == null) {
                        throw notFound(id);
                    }
                    return preferences.applied(answers.resource(row));
                });
    }

    @GetMapping("/v1/molds/{id}/mold.stl")
    ResponseEntity<?> stl(@PathVariable String id, HttpServletRequest request) {
        return file(id, request, Media.STL);
    }

    @GetMapping("/v1/molds/{id}/mold.3mf")
    ResponseEntity<?> threeMf(@PathVariable String id, HttpServletRequest request) {
        return file(id, request, Media.THREE_MF);
    }

    @GetMapping("/v1/molds/{id}/report.json")
    ResponseEntity<?> report(@PathVariable String id, HttpServletRequest request) {
        return file(id, request, Media.JSON);
    }

    /** Cancelling twice is cancelling once, so there is nothing to remember of the key. */
    @PostMapping("/v1/molds/{id}/cancel")
    ResponseEntity<MoldResource> cancel(@PathVariable String id, HttpServletRequest request) {
        require(request, Media.JSON);
        KeyedRequest keyed = KeyedRequest.of(request);
        return answers.resource(jobs.cancel(id, keyed.owner()).orElseThrow(() -> notFound(id)));
    }

    @DeleteMapping("/v1/molds/{id}")
    ResponseEntity<Void> delete(@PathVariable String id, HttpServletRequest request) {
        if (!jobs.delete(id, Callers.owner(request))) {
            throw notFound(id);
        }
        return ResponseEntity.noContent().build();
    }

    private ResponseEntity<?> file(String id, HttpServletRequest request, MediaType type) {
        require(request, type);
        return answers.file(find(id, request), type);
    }

    private MoldRow find(String id, HttpServletRequest request) {
        return molds.find(id, Callers.owner(request)).orElseThrow(() -> notFound(id));
    }

    private static void require(HttpServletRequest request, MediaType type) {
        Negotiation.require(request.getHeader(HttpHeaders.ACCEPT), List.of(type));
    }

    private static ProblemException notFound(String id) {
        return new ProblemException(ProblemKind.NOT_FOUND, "There is no mold " + id + ".");
    }
}
