package layupmold.api.batch;

import io.micronaut.serde.annotation.Serdeable;

/**
 * The other part of the suit that a part was recognised as, by its shape.
 *
 * @param kind moved or mirrored
 * @param part its name
 * @param deviationMm greatest distance between the two surfaces once one is laid over the other
 */
@Serdeable
public record Likeness(
        LikenessKind kind,
        String part,
        double deviationMm) {
}
