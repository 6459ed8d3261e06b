package layupmold.api.kit;

import com.fasterxml.jackson.annotation.JsonProperty;
import io.micronaut.serde.annotation.Serdeable;

/** What a coat of resin is for. */
@Serdeable
public enum CoatStage {
    @JsonProperty("before-ply") BEFORE_PLY,
    @JsonProperty("wet-out") WET_OUT,
    @JsonProperty("finish") FINISH
}
