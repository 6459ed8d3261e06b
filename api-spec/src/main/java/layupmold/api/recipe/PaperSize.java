package layupmold.api.recipe;

import com.fasterxml.jackson.annotation.JsonProperty;
import io.micronaut.serde.annotation.Serdeable;

/** Page that templates are printed on. */
@Serdeable
public enum PaperSize {
    @JsonProperty("a4") A4,
    @JsonProperty("letter") LETTER,
    @JsonProperty("a3") A3
}
