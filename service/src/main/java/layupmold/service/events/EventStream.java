package layupmold.service.events;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.Executor;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.atomic.AtomicReference;
import org.springframework.web.servlet.mvc.method.annotation.SseEmitter;

/** One client following one mold or suit. One that reads slowly gets the latest state and misses some in between. */
public final class EventStream {

    private static final long FOREVER = -1;

    private final SseEmitter emitter = new SseEmitter(FOREVER);
    private final AtomicReference<StreamEvent> latest = new AtomicReference<>();
    private final Executor writers;

    EventStream(Executor writers) {
        this.writers = writers;
    }

    public SseEmitter emitter() {
        return emitter;
    }

    void onClose(Runnable action) {
        emitter.onCompletion(action);
        emitter.onError(error -> action.run());
    }

    /** Sends a new state, soon; null says that what was followed is deleted. */
    void show(StreamEvent event) {
        if (event == null) {
            end();
        } else if (latest.getAndSet(event) == null) {
            execute(this::sendLatest);
        }
    }

    /** Lets proxies and the server notice a connection that is gone. */
    void beat() {
        execute(() -> send(SseEmitter.event().comment("still here")));
    }

    void end() {
        execute(emitter::complete);
    }

    private void execute(Runnable task) {
        try {
            writers.execute(task);
        } catch (RejectedExecutionException stopping) {
            emitter.complete();
        }
    }

    private void sendLatest() {
        StreamEvent event = latest.getAndSet(null);
        send(SseEmitter.event().id(event.id()).name(event.name())
                .data(new String(event.json().get(), StandardCharsets.UTF_8)));
        if (event.last()) {
            emitter.complete();
        }
    }

    private synchronized void send(SseEmitter.SseEventBuilder event) {
        try {
            emitter.send(event);
        } catch (IOException | IllegalStateException clientIsGone) {
            emitter.complete();
        }
    }
}
