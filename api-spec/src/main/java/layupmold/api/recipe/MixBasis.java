package layupmold.api.recipe;

import com.fasterxml.jackson.annotation.JsonProperty;
import io.micronaut.serde.annotation.Serdeable;

/** What a mix ratio counts. */
@Serdeable
public enum MixBasis {
    @JsonProperty("mass") MASS,
    @JsonProperty("volume") VOLUME
}
