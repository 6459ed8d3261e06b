package layupmold.api.recipe;

import com.fasterxml.jackson.annotation.JsonProperty;
import io.micronaut.serde.annotation.Serdeable;

/** Rows of the open resin table. */
@Serdeable
public enum ResinKind {
    @JsonProperty("laminating-epoxy-slow") LAMINATING_EPOXY_SLOW,
    @JsonProperty("laminating-epoxy-fast") LAMINATING_EPOXY_FAST,
    @JsonProperty("clear-coating-epoxy") CLEAR_COATING_EPOXY,
    @JsonProperty("vinyl-ester") VINYL_ESTER,
    @JsonProperty("polyester") POLYESTER
}
