package layupmold.api.kit;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;

/**
 * The plies' lines as numbers, for cutting machines.
 *
 * @param plies first ply at the tool
 */
@Serdeable
public record KitOutlines(
        List<PlyOutline> plies) {
}
