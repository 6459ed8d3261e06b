package layupmold.service.webhook;

import java.io.IOException;
import java.net.InetAddress;
import java.net.UnknownHostException;
import java.util.Arrays;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import layupmold.api.webhook.CloudEvent;
import layupmold.service.settings.WebhookSettings;
import org.apache.hc.client5.http.DnsResolver;
import org.apache.hc.client5.http.SystemDefaultDnsResolver;
import org.apache.hc.client5.http.classic.methods.HttpPost;
import org.apache.hc.client5.http.config.ConnectionConfig;
import org.apache.hc.client5.http.config.RequestConfig;
import org.apache.hc.client5.http.impl.classic.CloseableHttpClient;
import org.apache.hc.client5.http.impl.classic.HttpClients;
import org.apache.hc.client5.http.impl.io.PoolingHttpClientConnectionManagerBuilder;
import org.apache.hc.core5.http.ContentType;
import org.apache.hc.core5.http.io.entity.ByteArrayEntity;
import org.apache.hc.core5.util.Timeout;
import org.springframework.beans.factory.DisposableBean;
import org.springframework.stereotype.Component;

/**
 * Sends one signed request. The address is checked when the connection is made, on what the name resolves to then, so
 * that a name cannot point elsewhere after a check; redirects are not followed, no proxy is asked, no answer is read.
 */
@Component
class WebhookSender implements DisposableBean {

    private final WebhookSettings settings;
    /** Made with the first request, since it reads all certificates that the system trusts. */
    private CloseableHttpClient client;
    private final ScheduledExecutorService alarm = Executors.newSingleThreadScheduledExecutor(task -> {
        Thread daemon = new Thread(task, "webhook-alarm");
        daemon.setDaemon(true);
        return daemon;
    });

    WebhookSender(WebhookSettings settings) {
        this.settings = settings;
    }

    private synchronized CloseableHttpClient client() {
        if (client == null) {
            client = newClient();
        }
        return client;
    }

    private CloseableHttpClient newClient() {
        Timeout timeout = Timeout.of(settings.timeout());
        return HttpClients.custom()
                .setConnectionManager(PoolingHttpClientConnectionManagerBuilder.create()
                        .setDnsResolver(settings.allowPrivate() ? SystemDefaultDnsResolver.INSTANCE : new PublicOnly())
                        .setMaxConnTotal(settings.senders()).setMaxConnPerRoute(settings.senders())
                        .setDefaultConnectionConfig(ConnectionConfig.custom()
                                .setConnectTimeout(timeout).setSocketTimeout(timeout).build())
                        .build())
                .setDefaultRequestConfig(RequestConfig.custom().setRedirectsEnabled(false)
                        .setResponseTimeout(timeout).setConnectionRequestTimeout(timeout).build())
                .disableRedirectHandling().disableAutomaticRetries().disableCookieManagement().disableAuthCaching()
                .disableContentCompression().setUserAgent("Layupmold").build();
    }

    /** Answers for a name only if all its addresses are public. */
    private static final class PublicOnly implements DnsResolver {

        @Override
        public InetAddress[] resolve(String host) throws UnknownHostException {
            InetAddress[] found = SystemDefaultDnsResolver.INSTANCE.resolve(host);
            if (!Arrays.stream(found).allMatch(PublicAddress::is)) {
                throw new UnknownHostException("the address is not a public one");
            }
            return found;
        }

        @Override
        public String resolveCanonicalHostname(String host) throws UnknownHostException {
            return SystemDefaultDnsResolver.INSTANCE.resolveCanonicalHostname(host);
        }
    }

    /**
     * @return the answer's status
     * @throws IOException if there was no answer in time, or the address may not be asked
     */
    int send(WebhookRow webhook, String id, long timestamp, byte[] body) throws IOException {
        HttpPost request = new HttpPost(webhook.url());
        request.setHeader("webhook-id", id);
        request.setHeader("webhook-timestamp", String.valueOf(timestamp));
        request.setHeader("webhook-signature", Signature.of(webhook.secret(), id, timestamp, body));
        request.setEntity(new ByteArrayEntity(body, ContentType.create(CloudEvent.MEDIA_TYPE, "UTF-8")));
        CloseableHttpClient http = client();
        // Socket timeouts start anew with every byte; this one does not.
        ScheduledFuture<?> end = alarm.schedule(request::abort, settings.timeout().toMillis(), TimeUnit.MILLISECONDS);
        try {
            return http.execute(request, answer -> {
                request.abort();
                return answer.getCode();
            });
        } finally {
            end.cancel(false);
        }
    }

    @Override
    public synchronized void destroy() throws IOException {
        alarm.shutdownNow();
        if (client != null) {
            client.close();
        }
    }
}
