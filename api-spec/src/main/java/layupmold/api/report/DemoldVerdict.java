package layupmold.api.report;

import com.fasterxml.jackson.annotation.JsonProperty;
import io.micronaut.serde.annotation.Serdeable;

/** Whether a cured part leaves its mold along the pull. */
@Serdeable
public enum DemoldVerdict {
    @JsonProperty("releases") RELEASES,
    @JsonProperty("releases-with-flex") RELEASES_WITH_FLEX,
    @JsonProperty("locked") LOCKED
}
