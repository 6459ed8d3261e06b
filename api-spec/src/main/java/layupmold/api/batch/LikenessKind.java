package layupmold.api.batch;

import com.fasterxml.jackson.annotation.JsonProperty;
import io.micronaut.serde.annotation.Serdeable;

/** How one part's shape goes over into another's. */
@Serdeable
public enum LikenessKind {
    /** Moved or turned: the same mold serves both. */
    @JsonProperty("same") SAME,
    /** The mirror image: its mold is the other one mirrored. */
    @JsonProperty("mirrored") MIRRORED
}
