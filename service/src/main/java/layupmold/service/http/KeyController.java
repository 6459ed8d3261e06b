package layupmold.service.http;

import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import layupmold.api.ContractJson;
import layupmold.api.access.KeyList;
import layupmold.api.access.KeyResource;
import layupmold.api.access.NewKey;
import layupmold.api.problem.FieldError;
import layupmold.service.access.ApiKey;
import layupmold.service.access.ApiKeys;
import layupmold.service.idempotency.KeyedRequest;
import layupmold.service.idempotency.OncePerKey;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import layupmold.service.recipe.ContractSchemas;
import layupmold.service.store.Sha256;
import org.springframework.boot.autoconfigure.condition.ConditionalOnProperty;
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
@ConditionalOnProperty("layupmold.access.api-keys")
class KeyController {

    private static final int LARGEST_BODY = 1 << 14;

    private final ApiKeys keys;
    private final OncePerKey once;
    private final ContractSchemas schemas;

    KeyController(ApiKeys keys, OncePerKey once, ContractSchemas schemas) {
        this.keys = keys;
        this.once = once;
        this.schemas = schemas;
    }

    @PostMapping("/v1/keys")
    ResponseEntity<KeyResource> make(HttpServletRequest request) throws IOException {
        Negotiation.require(request.getHeader(HttpHeaders.ACCEPT), List.of(Media.JSON));
        KeyedRequest keyed = KeyedRequest.of(request);
        String json = body(request);
        NewKey wanted = parse(json);
        ApiKeys.Made made = once.run(keyed, List.of(Sha256.hex(json)), () -> keys.make(wanted), key -> key.key().id(),
                id -> keys.find(id).map(key -> new ApiKeys.Made(key, null)));
        return ResponseEntity.status(HttpStatus.CREATED).contentType(Media.JSON)
                .header(HttpHeaders.CACHE_CONTROL, "no-store").body(resource(made.key(), made.token()));
    }

    @GetMapping("/v1/keys")
    ResponseEntity<KeyList> list(HttpServletRequest request) {
        Negotiation.require(request.getHeader(HttpHeaders.ACCEPT), List.of(Media.JSON));
        return ResponseEntity.ok().contentType(Media.JSON)
                .body(new KeyList(keys.all().stream().map(key -> resource(key, null)).toList()));
    }

    @DeleteMapping("/v1/keys/{id}")
    ResponseEntity<Void> withdraw(@PathVariable String id) {
        if (!keys.withdraw(id)) {
            throw new ProblemException(ProblemKind.NOT_FOUND, "There is no key " + id + ".");
        }
        return ResponseEntity.noContent().build();
    }

    private static String body(HttpServletRequest request) throws IOException {
        try (InputStream body = new BoundedBody(request.getInputStream(), LARGEST_BODY)) {
            return new String(body.readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    private NewKey parse(String json) throws IOException {
        List<FieldError> errors = schemas.check("NewKey", json);
        if (!errors.isEmpty()) {
            throw new ProblemException(ProblemKind.BODY_INVALID,
                    errors.size() == 1 ? "One field is wrong." : errors.size() + " fields are wrong.",
                    null, errors, List.of());
        }
        try {
            return ContractJson.read(json.getBytes(StandardCharsets.UTF_8), NewKey.class);
        } catch (IOException e) {
            throw new ProblemException(ProblemKind.MALFORMED_JSON, "The body cannot be read: " + e.getMessage());
        }
    }

    private static KeyResource resource(ApiKey key, String token) {
        return new KeyResource(key.id(), key.owner(), key.name(), List.copyOf(key.scopes()), key.requestsPerMinute(),
                key.maxPartBytes(), key.createdAt(), key.expiresAt(), token);
    }
}
