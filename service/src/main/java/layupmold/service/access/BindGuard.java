package layupmold.service.access;

import java.net.InetAddress;
import java.net.UnknownHostException;
import java.util.ArrayList;
import java.util.List;
import layupmold.service.settings.AccessSettings;
import org.springframework.boot.tomcat.servlet.TomcatServletWebServerFactory;
import org.springframework.boot.web.server.WebServerFactoryCustomizer;
import org.springframework.core.Ordered;
import org.springframework.core.env.Environment;
import org.springframework.stereotype.Component;

/** Refuses to start where other machines could use a service without access control. */
@Component
class BindGuard implements WebServerFactoryCustomizer<TomcatServletWebServerFactory>, Ordered {

    private final TokenCheck check;
    private final AccessSettings settings;
    private final Environment environment;

    BindGuard(TokenCheck check, AccessSettings settings, Environment environment) {
        this.check = check;
        this.settings = settings;
        this.environment = environment;
    }

    /** @throws OpenServiceException if the address is not this machine's own loopback */
    @Override
    public void customize(TomcatServletWebServerFactory factory) {
        if (check.isOn() || settings.open()) {
            return;
        }
        List<InetAddress> addresses = new ArrayList<>();
        addresses.add(factory.getAddress());
        if (environment.getProperty("management.server.port") != null) {
            addresses.add(managementAddress());
        }
        for (InetAddress address : addresses) {
            if (address == null || !address.isLoopbackAddress()) {
                throw new OpenServiceException(address);
            }
        }
    }

    private InetAddress managementAddress() {
        try {
            String address = environment.getProperty("management.server.address");
            return address == null ? null : InetAddress.getByName(address);
        } catch (UnknownHostException e) {
            return null;
        }
    }

    /** Last, when the address is settled. */
    @Override
    public int getOrder() {
        return Ordered.LOWEST_PRECEDENCE;
    }
}
