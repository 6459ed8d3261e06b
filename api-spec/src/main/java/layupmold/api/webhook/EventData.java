package layupmold.api.webhook;

import io.micronaut.serde.annotation.Serdeable;

/**
 * More about an event: links, never meshes.
 *
 * @param status where mold, suit or print stands now
 * @param title of mold or suit, or name of the print; or null
 * @param mold path of the mold, or null
 * @param batch path of the suit, or null
 * @param print identifier of the print job, or null
 * @param lease path of the lease, or null
 * @param agent who leases, or null
 * @param detail why something went wrong, or null
 */
@Serdeable
public record EventData(
        String status,
        String title,
        String mold,
        String batch,
        String print,
        String lease,
        String agent,
        String detail) {
}
