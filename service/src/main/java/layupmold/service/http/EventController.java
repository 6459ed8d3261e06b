package layupmold.service.http;

import jakarta.servlet.http.HttpServletRequest;
import java.util.List;
import layupmold.service.access.Callers;
import layupmold.service.batch.BatchRow;
import layupmold.service.batch.BatchTable;
import layupmold.service.events.EventStream;
import layupmold.service.events.EventStreams;
import layupmold.service.jobs.MoldRow;
import layupmold.service.jobs.MoldTable;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RestController;
import org.springframework.web.servlet.mvc.method.annotation.SseEmitter;

/** Progress as server-sent events. */
@RestController
class EventController {

    private static final String LAST_EVENT = "Last-Event-ID";

    private final MoldTable molds;
    private final BatchTable batches;
    private final EventStreams streams;

    EventController(MoldTable molds, BatchTable batches, EventStreams streams) {
        this.molds = molds;
        this.batches = batches;
        this.streams = streams;
    }

    /** A finished mold tells its end again however much was seen before, so that no client waits for ever. */
    @GetMapping("/v1/molds/{id}/events")
    ResponseEntity<SseEmitter> followMold(@PathVariable String id, HttpServletRequest request) {
        requireStream(request);
        MoldRow mold = molds.find(id, Callers.owner(request))
                .orElseThrow(() -> new ProblemException(ProblemKind.NOT_FOUND, "There is no mold " + id + "."));
        return answer(streams.open(mold.id(),
                mold.status().isFinal() ? 0 : version(request.getHeader(LAST_EVENT))));
    }

    @GetMapping("/v1/batches/{id}/events")
    ResponseEntity<SseEmitter> followBatch(@PathVariable String id, HttpServletRequest request) {
        requireStream(request);
        BatchRow suit = batches.find(id, Callers.owner(request))
                .orElseThrow(() -> new ProblemException(ProblemKind.NOT_FOUND, "There is no batch " + id + "."));
        return answer(streams.open(suit, request.getHeader(LAST_EVENT)));
    }

    private static void requireStream(HttpServletRequest request) {
        Negotiation.require(request.getHeader(HttpHeaders.ACCEPT), List.of(MediaType.TEXT_EVENT_STREAM));
    }

    private static ResponseEntity<SseEmitter> answer(EventStream stream) {
        return ResponseEntity.ok().contentType(MediaType.TEXT_EVENT_STREAM)
                .header(HttpHeaders.CACHE_CONTROL, "no-store").body(stream.emitter());
    }

    private static long version(String header) {
        return header != null && header.matches("[0-9]{1,18}") ? Long.parseLong(header) : 0;
    }
}
