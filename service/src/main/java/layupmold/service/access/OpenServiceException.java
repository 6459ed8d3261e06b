package layupmold.service.access;

import java.net.InetAddress;

/** The service would be open to other machines without access control. */
final class OpenServiceException extends RuntimeException {

    OpenServiceException(InetAddress address) {
        super("The service would listen on " + (address == null ? "every address" : address.getHostAddress())
                + " of this machine without access control.");
    }
}
