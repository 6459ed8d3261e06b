package layupmold.api.recipe;

import com.fasterxml.jackson.annotation.JsonProperty;
import io.micronaut.serde.annotation.Serdeable;

/** Rows of the open fibre table. */
@Serdeable
public enum FibreKind {
    @JsonProperty("carbon") CARBON,
    @JsonProperty("e-glass") E_GLASS,
    @JsonProperty("aramid") ARAMID,
    @JsonProperty("basalt") BASALT,
    @JsonProperty("flax") FLAX
}
