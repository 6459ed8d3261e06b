package layupmold.api.recipe;

import com.fasterxml.jackson.annotation.JsonProperty;
import io.micronaut.serde.annotation.Serdeable;

/** Print material in generic terms. */
@Serdeable
public enum PrintMaterial {
    @JsonProperty("petg") PETG,
    @JsonProperty("pla") PLA,
    @JsonProperty("abs") ABS,
    @JsonProperty("asa") ASA,
    @JsonProperty("pc") PC
}
