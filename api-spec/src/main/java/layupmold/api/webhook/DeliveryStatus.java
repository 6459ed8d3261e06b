package layupmold.api.webhook;

import com.fasterxml.jackson.annotation.JsonProperty;
import io.micronaut.serde.annotation.Serdeable;

/** Where a delivery stands. */
@Serdeable
public enum DeliveryStatus {
    @JsonProperty("waiting") WAITING,
    @JsonProperty("done") DONE,
    /** Given up after its tries. */
    @JsonProperty("dead") DEAD
}
