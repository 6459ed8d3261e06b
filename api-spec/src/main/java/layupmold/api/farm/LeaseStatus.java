package layupmold.api.farm;

import com.fasterxml.jackson.annotation.JsonProperty;
import io.micronaut.serde.annotation.Serdeable;

/** Where a lease stands. */
@Serdeable
public enum LeaseStatus {
    @JsonProperty("leased") LEASED,
    @JsonProperty("done") DONE,
    @JsonProperty("failed") FAILED,
    /** Not renewed in time: its prints went back into the queue. */
    @JsonProperty("expired") EXPIRED
}
