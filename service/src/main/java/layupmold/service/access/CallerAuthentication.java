package layupmold.service.access;

import java.util.Collection;
import org.springframework.security.authentication.AbstractAuthenticationToken;
import org.springframework.security.core.GrantedAuthority;

/** A caller who has shown a valid key or token. */
final class CallerAuthentication extends AbstractAuthenticationToken {

    private final transient Caller caller;

    CallerAuthentication(Caller caller, Collection<? extends GrantedAuthority> scopes) {
        super(scopes);
        this.caller = caller;
        setAuthenticated(true);
    }

    @Override
    public Caller getPrincipal() {
        return caller;
    }

    @Override
    public Object getCredentials() {
        return null;
    }
}
