package layupmold.service.http;

import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.time.Clock;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import layupmold.api.webhook.Delivery;
import layupmold.api.webhook.DeliveryList;
import layupmold.api.webhook.DeliveryStatus;
import layupmold.api.webhook.NewWebhook;
import layupmold.api.webhook.WebhookList;
import layupmold.api.webhook.WebhookResource;
import layupmold.service.access.Callers;
import layupmold.service.idempotency.KeyedRequest;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import layupmold.service.webhook.DeliveryRow;
import layupmold.service.webhook.DeliveryTable;
import layupmold.service.webhook.WebhookRow;
import layupmold.service.webhook.WebhookTable;
import layupmold.service.webhook.Webhooks;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.DeleteMapping;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;

/** Makes, lists and removes webhooks, and sends dead events again. */
@RestController
class WebhookController {

    private static final int MOST_LISTED = 200;

    private final JsonBody bodies;
    private final Webhooks webhooks;
    private final WebhookTable table;
    private final DeliveryTable deliveries;
    private final Clock clock;

    WebhookController(JsonBody bodies, Webhooks webhooks, WebhookTable table, DeliveryTable deliveries, Clock clock) {
        this.bodies = bodies;
        this.webhooks = webhooks;
        this.table = table;
        this.deliveries = deliveries;
        this.clock = clock;
    }

    @PostMapping("/v1/webhooks")
    ResponseEntity<WebhookResource> make(HttpServletRequest request) throws IOException {
        requireJson(request);
        KeyedRequest keyed = KeyedRequest.of(request);
        Webhooks.Made made = webhooks.make(bodies.read(request, NewWebhook.class), keyed);
        return ResponseEntity.status(HttpStatus.CREATED).contentType(Media.JSON)
                .header(HttpHeaders.CACHE_CONTROL, "no-store").body(resource(made.webhook(), made.secret()));
    }

    @GetMapping("/v1/webhooks")
    ResponseEntity<WebhookList> list(HttpServletRequest request) {
        requireJson(request);
        return ResponseEntity.ok().contentType(Media.JSON).body(new WebhookList(
                table.of(Callers.owner(request)).stream().map(webhook -> resource(webhook, null)).toList()));
    }

    @DeleteMapping("/v1/webhooks/{id}")
    ResponseEntity<Void> delete(@PathVariable String id, HttpServletRequest request) {
        if (!table.delete(id, Callers.owner(request))) {
            throw notFound(id);
        }
        return ResponseEntity.noContent().build();
    }

    @GetMapping("/v1/webhooks/{id}/deliveries")
    ResponseEntity<DeliveryList> deliveries(@PathVariable String id, @RequestParam(required = false) String status,
            HttpServletRequest request) {
        requireJson(request);
        WebhookRow webhook = find(id, Callers.owner(request));
        return ResponseEntity.ok().contentType(Media.JSON).body(new DeliveryList(deliveries
                .of(webhook.id(), status(status), MOST_LISTED).stream().map(WebhookController::resource).toList()));
    }

    /** Replaying twice is replaying once: what waits already is no longer dead. */
    @PostMapping("/v1/webhooks/{id}/replay")
    ResponseEntity<WebhookResource> replay(@PathVariable String id, @RequestParam(required = false) String event,
            HttpServletRequest request) {
        requireJson(request);
        KeyedRequest keyed = KeyedRequest.of(request);
        WebhookRow webhook = find(id, keyed.owner());
        deliveries.replay(webhook.id(), event, clock.instant());
        return ResponseEntity.ok().contentType(Media.JSON).body(resource(find(id, keyed.owner()), null));
    }

    private WebhookRow find(String id, String owner) {
        return webhooks.find(id, owner).orElseThrow(() -> notFound(id));
    }

    private static WebhookResource resource(WebhookRow webhook, String secret) {
        return new WebhookResource(webhook.id(), webhook.url(), webhook.types(), webhook.enabled(), webhook.waiting(),
                webhook.dead(), webhook.createdAt(), secret);
    }

    private static Delivery resource(DeliveryRow row) {
        return new Delivery(row.eventId(), row.type(), row.subject(), row.status(), row.attempts(),
                row.status() == DeliveryStatus.WAITING ? row.nextAt() : null, row.error());
    }

    private static DeliveryStatus status(String word) {
        return word == null ? null : Arrays.stream(DeliveryStatus.values())
                .filter(status -> status.name().toLowerCase(Locale.ROOT).equals(word)).findFirst()
                .orElseThrow(() -> new ProblemException(ProblemKind.BAD_REQUEST, "There is no status " + word + "."));
    }

    private static void requireJson(HttpServletRequest request) {
        Negotiation.require(request.getHeader(HttpHeaders.ACCEPT), List.of(Media.JSON));
    }

    private static ProblemException notFound(String id) {
        return new ProblemException(ProblemKind.NOT_FOUND, "There is no webhook " + id + ".");
    }
}
