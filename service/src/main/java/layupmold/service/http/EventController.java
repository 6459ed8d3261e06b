package layupmold.service.http;

import jakarta.servlet.http.HttpServletRequest;
import java.util.List;
import layupmold.service.access.Callers;
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

    private final MoldTable molds;
    private final EventStreams streams;

    EventController(MoldTable molds, EventStreams streams) {
        this.molds = molds;
        this.streams = streams;
    }

    @GetMapping("/v1/molds/{id}/events")
    ResponseEntity<SseEmitter> follow(@PathVariable String id, HttpServletRequest request) {
        Negotiation.require(request.getHeader(HttpHeaders.ACCEPT), List.of(MediaType.TEXT_EVENT_STREAM));
        MoldRow mold = molds.find(id, Callers.owner(request))
                .orElseThrow(() -> new ProblemException(ProblemKind.NOT_FOUND, "There is no mold " + id + "."));
        EventStream stream = streams.open(mold.id(), lastSeen(request.getHeader("Last-Event-ID")));
        return ResponseEntity.ok().contentType(MediaType.TEXT_EVENT_STREAM)
                .header(HttpHeaders.CACHE_CONTROL, "no-store").body(stream.emitter());
    }

    /** A finished mold tells its end again however much was seen before, so that no client waits for ever. */
    private static long lastSeen(String header) {
        return header != null && header.matches("[0-9]{1,18}") ? Long.parseLong(header) : 0;
    }
}
