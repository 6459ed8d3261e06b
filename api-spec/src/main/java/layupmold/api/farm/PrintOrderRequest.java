package layupmold.api.farm;

import io.micronaut.serde.annotation.Serdeable;

/**
 * Asks for molds to be printed: one, or all of a suit. Those that are not made yet are printed once they are.
 *
 * @param mold identifier of a mold; or null
 * @param batch identifier of a suit whose molds are each printed once; or null
 * @param quantity prints of each; absent for one
 * @param priority higher ones come first; absent for 0
 */
@Serdeable
public record PrintOrderRequest(
        String mold,
        String batch,
        Integer quantity,
        Integer priority) {
}
