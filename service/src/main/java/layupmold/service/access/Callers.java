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
}
