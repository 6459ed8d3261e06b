package layupmold.api.kit;

import io.micronaut.serde.annotation.Serdeable;

/**
 * A resin for one purpose.
 *
 * @param name of the resin
 * @param finish whether for finish coats, else for laminates
 * @param resinG losses included
 * @param hardenerG its hardener
 */
@Serdeable
public record ResinNeed(
        String name,
        Boolean finish,
        Double resinG,
        Double hardenerG) {
}
