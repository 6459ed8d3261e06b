package layupmold.service.webhook;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.Semaphore;
import java.util.concurrent.ThreadLocalRandom;
import layupmold.api.ContractJson;
import layupmold.api.webhook.CloudEvent;
import layupmold.api.webhook.EventData;
import layupmold.service.settings.WebhookSettings;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.DisposableBean;
import org.springframework.scheduling.annotation.Scheduled;
import org.springframework.stereotype.Component;

/**
 * Sends what is due. Of one webhook and one subject only the earliest event is under way, so they arrive in order; what
 * waits for one subject holds up no other. Every node dispatches; a claim in the database keeps them apart.
 */
@Component
class WebhookDispatcher implements DisposableBean {

    private static final Logger LOG = LoggerFactory.getLogger(WebhookDispatcher.class);
    private static final int GONE = 410;
    private static final double JITTER = 0.1;

    private final DeliveryTable deliveries;
    private final WebhookTable webhooks;
    private final WebhookSender sender;
    private final WebhookSettings settings;
    private final Clock clock;
    private final ExecutorService threads;
    private final Semaphore free;

    WebhookDispatcher(DeliveryTable deliveries, WebhookTable webhooks, WebhookSender sender, WebhookSettings settings,
            Clock clock) {
        this.deliveries = deliveries;
        this.webhooks = webhooks;
        this.sender = sender;
        this.settings = settings;
        this.clock = clock;
        this.free = new Semaphore(settings.senders());
        this.threads = Executors.newFixedThreadPool(settings.senders(), task -> {
            Thread daemon = new Thread(task, "webhook-sender");
            daemon.setDaemon(true);
            return daemon;
        });
    }

    @Scheduled(fixedDelayString = "${layupmold.webhooks.poll:1s}")
    void dispatch() {
        Instant now = clock.instant();
        for (DeliveryRow delivery : deliveries.due(now, 4 * settings.senders())) {
            if (!free.tryAcquire()) {
                return;
            }
            boolean handedOver = false;
            try {
                if (deliveries.claim(delivery, now, now.plus(settings.timeout().multipliedBy(3)))) {
                    threads.execute(() -> work(delivery));
                    handedOver = true;
                }
            } catch (RejectedExecutionException stopping) {
                LOG.debug("stopping; the claim runs out");
            } finally {
                if (!handedOver) {
                    free.release();
                }
            }
        }
    }

    @Scheduled(fixedDelayString = "PT1H")
    void forget() {
        deliveries.deleteOld(clock.instant().minus(settings.keep()));
    }

    private void work(DeliveryRow delivery) {
        boolean more = false;
        try {
            more = deliver(delivery);
        } catch (RuntimeException e) {
            LOG.warn("delivery of {} was disturbed, its claim runs out", delivery.eventId(), e);
        } finally {
            free.release();
        }
        if (more) {
            dispatchNext();
        }
    }

    /** The next event of the subject is due now, so there is no need to wait for the poll. */
    private void dispatchNext() {
        try {
            dispatch();
        } catch (RuntimeException e) {
            LOG.debug("will look again soon", e);
        }
    }

    private boolean deliver(DeliveryRow delivery) {
        Optional<WebhookRow> webhook = webhooks.find(delivery.webhookId()).filter(WebhookRow::enabled);
        if (webhook.isEmpty()) {
            return false;
        }
        String error;
        try {
            int status = sender.send(webhook.get(), delivery.eventId(), clock.instant().getEpochSecond(), body(delivery));
            if (status / 100 == 2) {
                deliveries.done(delivery);
                return true;
            }
            if (status == GONE) {
                webhooks.disable(delivery.webhookId());
                deliveries.giveUp(delivery.webhookId(), "The address answered 410, it is gone.");
                LOG.info("webhook {} is gone", delivery.webhookId());
                return false;
            }
            error = "The answer was " + status + ".";
        } catch (IOException | RuntimeException e) {
            error = "No answer: " + e.getClass().getSimpleName() + (e.getMessage() == null ? "" : ", " + e.getMessage());
        }
        boolean last = delivery.attempts() + 1 >= settings.maxTries();
        deliveries.failed(delivery, error, last ? null : clock.instant().plus(pause(delivery.attempts())));
        LOG.info("event {} was not taken by webhook {}: {}", delivery.eventId(), delivery.webhookId(), error);
        return last;
    }

    private Duration pause(int failedBefore) {
        double jitter = 1 + JITTER * ThreadLocalRandom.current().nextDouble(-1, 1);
        return Duration.ofMillis((long) (settings.firstRetry().toMillis() * Math.pow(settings.backoff(), failedBefore) * jitter));
    }

    private byte[] body(DeliveryRow delivery) {
        try {
            EventData data = ContractJson.read(delivery.data().getBytes(StandardCharsets.UTF_8), EventData.class);
            return ContractJson.write(new CloudEvent("1.0", delivery.eventId(), settings.source(), delivery.type(),
                    delivery.subject(), delivery.happenedAt(), "application/json", String.format("%019d", delivery.sequence()),
                    data));
        } catch (IOException e) {
            throw new UncheckedIOException("a stored event cannot be read", e);
        }
    }

    @Override
    public void destroy() {
        threads.shutdownNow();
    }
}
