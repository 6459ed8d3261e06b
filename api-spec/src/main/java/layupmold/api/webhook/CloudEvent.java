package layupmold.api.webhook;

import io.micronaut.serde.annotation.Serdeable;
import java.time.Instant;

/**
 * What a webhook is sent: a CloudEvent 1.0 in JSON. Events of one subject come in order; an event may come twice, with
 * the same identifier.
 *
 * @param specversion 1.0
 * @param id identifier of the event
 * @param source the service
 * @param type what happened, such as {@code layupmold.mold.done}
 * @param subject path of the mold or suit that it happened to
 * @param time when
 * @param datacontenttype application/json
 * @param sequence rises from event to event
 * @param data more about it
 */
@Serdeable
public record CloudEvent(
        String specversion,
        String id,
        String source,
        String type,
        String subject,
        Instant time,
        String datacontenttype,
        String sequence,
        EventData data) {

    /** Its media type, in structured mode. */
    public static final String MEDIA_TYPE = "application/cloudevents+json";
}
