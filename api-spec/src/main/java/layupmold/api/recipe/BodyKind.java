package layupmold.api.recipe;

import com.fasterxml.jackson.annotation.JsonProperty;
import io.micronaut.serde.annotation.Serdeable;

/** Form of the printed body. */
@Serdeable
public enum BodyKind {
    @JsonProperty("block") BLOCK,
    @JsonProperty("shell") SHELL
}
