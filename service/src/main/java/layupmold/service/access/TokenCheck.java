package layupmold.service.access;

import layupmold.service.settings.AccessSettings;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.security.authentication.AuthenticationManager;
import org.springframework.security.core.Authentication;
import org.springframework.security.oauth2.jwt.Jwt;
import org.springframework.security.oauth2.jwt.JwtDecoder;
import org.springframework.security.oauth2.server.resource.InvalidBearerTokenException;
import org.springframework.security.oauth2.server.resource.authentication.BearerTokenAuthenticationToken;
import org.springframework.security.oauth2.server.resource.authentication.JwtAuthenticationProvider;
import org.springframework.security.oauth2.server.resource.authentication.JwtGrantedAuthoritiesConverter;
import org.springframework.stereotype.Component;

/** Finds out who sent a bearer token: a key of ours, or a token of the configured OAuth 2 server. */
@Component
class TokenCheck implements AuthenticationManager {

    private static final int LONGEST_SUBJECT = 90;

    private final ApiKeys keys;
    private final AccessSettings settings;
    private final JwtAuthenticationProvider tokens;

    TokenCheck(ApiKeys keys, AccessSettings settings, ObjectProvider<JwtDecoder> decoder) {
        this.keys = keys;
        this.settings = settings;
        JwtDecoder configured = decoder.getIfAvailable();
        this.tokens = configured == null ? null : new JwtAuthenticationProvider(configured);
        if (tokens != null) {
            tokens.setJwtAuthenticationConverter(this::holder);
        }
    }

    /** Whether callers must be known at all. */
    boolean isOn() {
        return settings.apiKeys() || tokens != null;
    }

    @Override
    public Authentication authenticate(Authentication shown) {
        BearerTokenAuthenticationToken bearer = (BearerTokenAuthenticationToken) shown;
        if (settings.apiKeys()) {
            var caller = keys.recognise(bearer.getToken());
            if (caller.isPresent()) {
                return caller.get();
            }
        }
        if (tokens == null) {
            throw new InvalidBearerTokenException("The key is not known");
        }
        return tokens.authenticate(shown);
    }

    /** Owners of keys have no colon in their names, so that nobody can be taken for the holder of a token. */
    private CallerAuthentication holder(Jwt token) {
        String subject = token.getSubject();
        if (subject == null || subject.isBlank() || subject.length() > LONGEST_SUBJECT) {
            throw new InvalidBearerTokenException("The token needs a subject of at most " + LONGEST_SUBJECT + " characters");
        }
        return new CallerAuthentication(
                new Caller("sub:" + subject, "sub:" + subject, settings.requestsPerMinute(), null),
                new JwtGrantedAuthoritiesConverter().convert(token));
    }
}
