package layupmold.service.http;

import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.util.List;
import layupmold.api.access.KeyList;
import layupmold.api.access.KeyResource;
import layupmold.api.access.NewKey;
import layupmold.service.access.ApiKey;
import layupmold.service.access.ApiKeys;
import layupmold.service.idempotency.KeyedRequest;
import layupmold.service.idempotency.OncePerKey;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import layupmold.service.settings.AccessSettings;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.DeleteMapping;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RestController;

/** Makes, lists and withdraws keys; there only where keys are asked for. */
@RestController
class KeyController {

    private final ApiKeys keys;
    private final OncePerKey once;
    private final JsonBody bodies;
    private final AccessSettings access;

    KeyController(ApiKeys keys, OncePerKey once, JsonBody bodies, AccessSettings access) {
        this.keys = keys;
        this.once = once;
        this.bodies = bodies;
        this.access = access;
    }

    @PostMapping("/v1/keys")
    ResponseEntity<KeyResource> make(HttpServletRequest request) throws IOException {
        Negotiation.require(request.getHeader(HttpHeaders.ACCEPT), List.of(Media.JSON));
        KeyedRequest keyed = KeyedRequest.of(request);
        requireKeys();
        NewKey wanted = bodies.read(request, NewKey.class);
        ApiKeys.Made made = once.run(keyed, List.of(wanted.toString()), () -> keys.make(wanted), key -> key.key().id(),
                id -> keys.find(id).map(key -> new ApiKeys.Made(key, null)));
        return ResponseEntity.status(HttpStatus.CREATED).contentType(Media.JSON)
                .header(HttpHeaders.CACHE_CONTROL, "no-store").body(resource(made.key(), made.token()));
    }

    @GetMapping("/v1/keys")
    ResponseEntity<KeyList> list(HttpServletRequest request) {
        requireKeys();
        Negotiation.require(request.getHeader(HttpHeaders.ACCEPT), List.of(Media.JSON));
        return ResponseEntity.ok().contentType(Media.JSON)
                .body(new KeyList(keys.all().stream().map(key -> resource(key, null)).toList()));
    }

    @DeleteMapping("/v1/keys/{id}")
    ResponseEntity<Void> withdraw(@PathVariable String id) {
        requireKeys();
        if (!keys.withdraw(id)) {
            throw new ProblemException(ProblemKind.NOT_FOUND, "There is no key " + id + ".");
        }
        return ResponseEntity.noContent().build();
    }

    private void requireKeys() {
        if (!access.apiKeys()) {
            throw new ProblemException(ProblemKind.NOT_FOUND, "This service asks for no keys.");
        }
    }

    private static KeyResource resource(ApiKey key, String token) {
        return new KeyResource(key.id(), key.owner(), key.name(), List.copyOf(key.scopes()), key.requestsPerMinute(),
                key.maxPartBytes(), key.createdAt(), key.expiresAt(), token);
    }
}
