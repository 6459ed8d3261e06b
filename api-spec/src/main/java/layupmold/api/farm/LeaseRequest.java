package layupmold.api.farm;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;
import layupmold.api.recipe.PrintMaterial;

/**
 * A printer that is free.
 *
 * @param agent who asks, for people
 * @param bedXMm usable width
 * @param bedYMm usable depth
 * @param heightMm usable height
 * @param materials what it can print
 * @param clearanceMm least distance between molds on the bed, half of it from the edge; absent for 5
 */
@Serdeable
public record LeaseRequest(
        String agent,
        Double bedXMm,
        Double bedYMm,
        Double heightMm,
        List<PrintMaterial> materials,
        Double clearanceMm) {
}
