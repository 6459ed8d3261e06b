package layupmold.api.batch;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;
import layupmold.api.mold.MoldStatus;

/**
 * One part in the sums.
 *
 * @param name from the manifest
 * @param quantity pieces wanted
 * @param status where its mold stands
 * @param likeness the other part that it was recognised as, or null
 * @param mold path of its mold, or null
 * @param printed whether its mold is printed; false where another part's mold serves
 * @param sizeMm size of the mold, or null without one
 * @param filamentG filament of its mold; 0 where another part's mold serves
 * @param printHours likewise
 * @param clothM2 cloth for all pieces
 * @param resinG resin and hardener for all pieces
 * @param warnings number of warnings in its report
 */
@Serdeable
public record SuitSummaryPart(
        String name,
        int quantity,
        MoldStatus status,
        Likeness likeness,
        String mold,
        boolean printed,
        List<Double> sizeMm,
        double filamentG,
        double printHours,
        double clothM2,
        double resinG,
        int warnings) {
}
