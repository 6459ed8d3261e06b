package layupmold.service.access;

import jakarta.servlet.http.HttpServletRequest;
import java.security.Principal;

/** Who sends a request. */
public final class Callers {

    /** Owner of everything while access control is off. */
    public static final String ANYONE = "anyone";

    private Callers() {
    }

    /** The owner that the request's molds belong to. */
    public static String owner(HttpServletRequest request) {
        Principal caller = request.getUserPrincipal();
        return caller == null ? ANYONE : caller.getName();
    }

    /** The largest part that the caller may post, given what the service takes at most. */
    public static long maxPartBytes(HttpServletRequest request, long most) {
        return request.getUserPrincipal() instanceof CallerAuthentication known
                && known.getPrincipal().maxPartBytes() != null
                ? Math.min(most, known.getPrincipal().maxPartBytes()) : most;
    }
}
