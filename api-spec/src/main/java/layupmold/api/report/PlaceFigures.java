package layupmold.api.report;

import io.micronaut.serde.annotation.Serdeable;

/**
 * Where on the part, in the posted mesh's own coordinates scaled to mm.
 *
 * @param x mm
 * @param y mm
 * @param z mm
 * @param triangle index of the triangle as posted, or null where none applies
 */
@Serdeable
public record PlaceFigures(
        Double x,
        Double y,
        Double z,
        Integer triangle) {
}
