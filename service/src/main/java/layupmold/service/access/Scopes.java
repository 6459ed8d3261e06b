package layupmold.service.access;

import java.util.Locale;
import layupmold.api.access.AccessScope;
import org.springframework.security.core.GrantedAuthority;
import org.springframework.security.core.authority.SimpleGrantedAuthority;

/** Scopes as Spring Security names them. */
final class Scopes {

    private Scopes() {
    }

    static GrantedAuthority authority(AccessScope scope) {
        return new SimpleGrantedAuthority(authority(scope.name().toLowerCase(Locale.ROOT)));
    }

    /** @param scope the contract's word */
    static String authority(String scope) {
        return "SCOPE_" + scope;
    }
}
