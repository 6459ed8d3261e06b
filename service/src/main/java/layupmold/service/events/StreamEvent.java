package layupmold.service.events;

import java.util.Locale;
import java.util.function.Supplier;
import layupmold.api.ContractJson;
import layupmold.api.batch.BatchResource;
import layupmold.service.http.MoldView;
import layupmold.service.jobs.MoldRow;
import layupmold.service.store.Sha256;

/**
 * One event of a stream.
 *
 * @param id what a client that comes back says it saw last
 * @param name its type
 * @param json the resource, written when the event is sent: most states of a busy mold never are
 * @param last whether the stream ends with it
 */
record StreamEvent(String id, String name, Supplier<byte[]> json, boolean last) {

    private static final String PROGRESS = "progress";

    static StreamEvent of(MoldRow mold) {
        boolean over = mold.status().isFinal();
        return new StreamEvent(String.valueOf(mold.version()), over ? word(mold.status()) : PROGRESS,
                () -> ContractJson.write(MoldView.resource(mold)), over);
    }

    /** A suit has no version of its own, so its events are told apart by what they say. */
    static StreamEvent of(BatchResource suit) {
        byte[] json = ContractJson.write(suit);
        boolean over = suit.status().isFinal();
        return new StreamEvent(Sha256.hex(json).substring(0, 32), over ? word(suit.status()) : PROGRESS, () -> json, over);
    }

    private static String word(Enum<?> status) {
        return status.name().toLowerCase(Locale.ROOT);
    }
}
