package layupmold.api.batch;

import com.fasterxml.jackson.annotation.JsonProperty;
import io.micronaut.serde.annotation.Serdeable;

/** Where a suit stands. */
@Serdeable
public enum BatchStatus {
    /** Accepted and stored; its parts are being compared. */
    @JsonProperty("sorting") SORTING,
    /** Its molds are being made. */
    @JsonProperty("running") RUNNING,
    /** Every part has its mold. */
    @JsonProperty("done") DONE,
    /** Nothing more will happen, and some parts have no mold; their problems say why. */
    @JsonProperty("incomplete") INCOMPLETE;

    /** Whether nothing more will happen. */
    public boolean isFinal() {
        return this == DONE || this == INCOMPLETE;
    }
}
