package layupmold.service.events;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.concurrent.Executor;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.atomic.AtomicReference;
import layupmold.api.ContractJson;
import layupmold.service.http.MoldView;
import layupmold.service.jobs.MoldRow;
import org.springframework.web.servlet.mvc.method.annotation.SseEmitter;

/** One client following one mold. A client that reads slowly gets the latest state and misses some in between. */
public final class EventStream {

    private static final long FOREVER = -1;

    private final SseEmitter emitter = new SseEmitter(FOREVER);
    private final AtomicReference<MoldRow> latest = new AtomicReference<>();
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

    /** Sends a mold's new state, soon; null says that it was deleted. */
    void show(MoldRow mold) {
        if (mold == null) {
            end();
        } else if (latest.getAndSet(mold) == null) {
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
        MoldRow mold = latest.getAndSet(null);
        String json = new String(ContractJson.write(MoldView.resource(mold)), StandardCharsets.UTF_8);
        boolean over = mold.status().isFinal();
        send(SseEmitter.event().id(String.valueOf(mold.version()))
                .name(over ? mold.status().name().toLowerCase(Locale.ROOT) : "progress").data(json));
        if (over) {
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
