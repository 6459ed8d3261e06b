package layupmold.service.webhook;

import java.net.InetAddress;
import java.net.URI;
import java.net.URISyntaxException;
import java.net.UnknownHostException;
import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import layupmold.api.problem.FieldError;
import layupmold.api.webhook.NewWebhook;
import layupmold.service.idempotency.KeyedRequest;
import layupmold.service.idempotency.OncePerKey;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import layupmold.service.settings.WebhookSettings;
import org.springframework.stereotype.Service;

/** Takes webhooks. */
@Service
public class Webhooks {

    private final WebhookTable webhooks;
    private final OncePerKey once;
    private final WebhookSettings settings;
    private final Clock clock;

    Webhooks(WebhookTable webhooks, OncePerKey once, WebhookSettings settings, Clock clock) {
        this.webhooks = webhooks;
        this.once = once;
        this.settings = settings;
        this.clock = clock;
    }

    /** @param secret null when a request was repeated: it is told once */
    public record Made(WebhookRow webhook, String secret) {
    }

    /** @throws ProblemException if its address may not be asked, or there are too many */
    public Made make(NewWebhook wanted, KeyedRequest request) {
        check(wanted);
        return once.run(request, List.of(wanted.toString()), () -> insert(wanted, request.owner()),
                made -> made.webhook().id(),
                id -> webhooks.find(id, request.owner()).map(webhook -> new Made(webhook, null)));
    }

    private Made insert(NewWebhook wanted, String owner) {
        if (webhooks.of(owner).size() >= settings.most()) {
            throw invalid("", "out-of-range", "There are at most " + settings.most() + " webhooks.");
        }
        String secret = wanted.secret() == null ? Signature.newSecret() : wanted.secret();
        Instant now = clock.instant().truncatedTo(ChronoUnit.MICROS);
        WebhookRow webhook = new WebhookRow(UUID.randomUUID().toString(), owner, wanted.url(),
                wanted.types() == null ? List.of() : wanted.types(), secret, true, now, 0, 0);
        webhooks.insert(webhook);
        return new Made(webhook, secret);
    }

    private void check(NewWebhook wanted) {
        if (wanted.secret() != null && !Signature.isSecret(wanted.secret())) {
            throw invalid("/secret", "malformed", "A secret is whsec_ and 24 to 64 bytes in Base64.");
        }
        URI url = url(wanted.url());
        boolean scheme = "https".equalsIgnoreCase(url.getScheme())
                || settings.allowHttp() && "http".equalsIgnoreCase(url.getScheme());
        if (!scheme || url.getHost() == null || url.getUserInfo() != null || url.getFragment() != null) {
            throw invalid("/url", "not-allowed", "The address must be https with a host, without user and fragment.");
        }
        if (!settings.allowPrivate() && isKnownPrivate(url.getHost())) {
            throw invalid("/url", "not-allowed", "Requests to private and link-local addresses are not sent.");
        }
    }

    private static URI url(String url) {
        try {
            return new URI(url);
        } catch (URISyntaxException e) {
            throw invalid("/url", "malformed", "This is not an address: " + e.getReason());
        }
    }

    /** A courtesy: the address is checked again whenever a connection is made. A name unknown now may be known later. */
    private static boolean isKnownPrivate(String host) {
        try {
            for (InetAddress address : InetAddress.getAllByName(host.replaceAll("^\\[|]$", ""))) {
                if (!PublicAddress.is(address)) {
                    return true;
                }
            }
            return false;
        } catch (UnknownHostException e) {
            return false;
        }
    }

    public Optional<WebhookRow> find(String id, String owner) {
        return webhooks.find(id, owner);
    }

    private static ProblemException invalid(String pointer, String code, String detail) {
        return new ProblemException(ProblemKind.BODY_INVALID, detail, null,
                List.of(new FieldError(pointer, code, detail)), List.of());
    }
}
