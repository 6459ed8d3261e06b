package layupmold.api.recipe;

import com.fasterxml.jackson.annotation.JsonProperty;
import io.micronaut.serde.annotation.Serdeable;

/** Which face of the finished part keeps the modelled size. */
@Serdeable
public enum HeldFace {
    @JsonProperty("inner") INNER,
    @JsonProperty("outer") OUTER
}
