package layupmold.api.recipe;

import com.fasterxml.jackson.annotation.JsonProperty;
import io.micronaut.serde.annotation.Serdeable;

/** A wall of a shell. */
@Serdeable
public enum WallSide {
    @JsonProperty("outer") OUTER,
    @JsonProperty("inner") INNER
}
