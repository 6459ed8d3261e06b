package layupmold.api.recipe;

import com.fasterxml.jackson.annotation.JsonProperty;
import io.micronaut.serde.annotation.Serdeable;

/** Unit of a mesh file's numbers. */
@Serdeable
public enum MeshUnit {
    @JsonProperty("mm") MM,
    @JsonProperty("cm") CM,
    @JsonProperty("m") M,
    @JsonProperty("in") INCH
}
