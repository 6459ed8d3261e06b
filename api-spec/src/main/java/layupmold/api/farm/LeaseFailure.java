package layupmold.api.farm;

import io.micronaut.serde.annotation.Serdeable;

/**
 * Why a plate was not printed.
 *
 * @param reason for people
 */
@Serdeable
public record LeaseFailure(
        String reason) {
}
