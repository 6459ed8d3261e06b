package layupmold.api.mold;

import com.fasterxml.jackson.annotation.JsonProperty;
import io.micronaut.serde.annotation.Serdeable;

/** Where a posted part stands. */
@Serdeable
public enum MoldStatus {
    /** Accepted and stored, not started. */
    @JsonProperty("queued") QUEUED,
    /** Being worked on. */
    @JsonProperty("running") RUNNING,
    /** Mold, 3MF and report are there. */
    @JsonProperty("done") DONE,
    /** No mold can be made of this part with this recipe; the problem says why and where. */
    @JsonProperty("rejected") REJECTED,
    /** Given up for a reason that is not the part's; the problem says which. */
    @JsonProperty("failed") FAILED,
    /** Stopped on request. */
    @JsonProperty("cancelled") CANCELLED;

    /** Whether nothing more will happen. */
    public boolean isFinal() {
        return this != QUEUED && this != RUNNING;
    }
}
