package layupmold.api.recipe;

import com.fasterxml.jackson.annotation.JsonProperty;
import io.micronaut.serde.annotation.Serdeable;

/** On which side of the tool the laminate lies. */
@Serdeable
public enum ToolKind {
    @JsonProperty("female") FEMALE,
    @JsonProperty("male") MALE
}
