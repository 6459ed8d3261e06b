package layupmold.api.recipe;

import com.fasterxml.jackson.annotation.JsonProperty;
import io.micronaut.serde.annotation.Serdeable;

/** How a cloth's yarns cross. */
@Serdeable
public enum WeaveKind {
    @JsonProperty("plain") PLAIN,
    @JsonProperty("twill-2x2") TWILL_2X2,
    @JsonProperty("satin") SATIN,
    @JsonProperty("unidirectional") UNIDIRECTIONAL,
    @JsonProperty("chopped-mat") CHOPPED_MAT
}
