package layupmold.api.report;

import com.fasterxml.jackson.annotation.JsonProperty;
import io.micronaut.serde.annotation.Serdeable;

/** How much a finding matters. */
@Serdeable
public enum SeverityLevel {
    @JsonProperty("info") INFO,
    @JsonProperty("warning") WARNING,
    @JsonProperty("error") ERROR
}
