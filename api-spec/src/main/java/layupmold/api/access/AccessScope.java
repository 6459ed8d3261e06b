package layupmold.api.access;

import com.fasterxml.jackson.annotation.JsonProperty;
import io.micronaut.serde.annotation.Serdeable;

/** What a key allows. */
@Serdeable
public enum AccessScope {
    /** Post, cancel and delete. */
    @JsonProperty("submit") SUBMIT,
    /** See one's own molds and their files. */
    @JsonProperty("read") READ,
    /** Take print jobs. */
    @JsonProperty("farm") FARM,
    /** Make and withdraw keys; read metrics. */
    @JsonProperty("admin") ADMIN
}
