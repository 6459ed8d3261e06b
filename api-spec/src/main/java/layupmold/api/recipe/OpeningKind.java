package layupmold.api.recipe;

import com.fasterxml.jackson.annotation.JsonProperty;
import io.micronaut.serde.annotation.Serdeable;

/** How openings are made. */
@Serdeable
public enum OpeningKind {
    @JsonProperty("cap") CAP,
    @JsonProperty("core-plug") CORE_PLUG
}
