package layupmold.api.farm;

import io.micronaut.serde.annotation.Serdeable;

/**
 * A mold on a plate: turned about its own middle, then moved there.
 *
 * @param print identifier of its print job
 * @param mold path of the mold
 * @param name what it is called
 * @param xMm from the bed's left edge
 * @param yMm from the bed's front edge
 * @param turnDeg counter-clockwise
 */
@Serdeable
public record LeaseItem(
        String print,
        String mold,
        String name,
        double xMm,
        double yMm,
        double turnDeg) {
}
