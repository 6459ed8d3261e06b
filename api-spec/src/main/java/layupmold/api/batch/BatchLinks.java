package layupmold.api.batch;

import io.micronaut.serde.annotation.Serdeable;

/**
 * Where to go from here; null for what is not there (yet).
 *
 * @param self this resource
 * @param events how the suit gets on, as server-sent events
 * @param bundle molds, reports and contents list in one zip
 * @param summary what the suit needs in all
 * @param page the same for people
 * @param kit the layup kits together: plies of all parts on common rolls, shopping list
 */
@Serdeable
public record BatchLinks(
        String self,
        String events,
        String bundle,
        String summary,
        String page,
        String kit) {
}
