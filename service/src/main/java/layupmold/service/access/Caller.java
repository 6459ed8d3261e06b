package layupmold.service.access;

import java.security.Principal;

/**
 * Who sends a request, known by a key or token.
 *
 * @param id names the key or token holder, for counting requests
 * @param owner whose molds it sees
 * @param requestsPerMinute most requests a minute
 * @param maxPartBytes largest part it may post, or null if only the service's bound counts
 */
record Caller(String id, String owner, int requestsPerMinute, Long maxPartBytes) implements Principal {

    @Override
    public String getName() {
        return owner;
    }
}
