package layupmold.service.farm;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.UUID;
import java.util.function.Consumer;
import layupmold.api.farm.LeaseRequest;
import layupmold.api.farm.LeaseStatus;
import layupmold.api.webhook.EventData;
import layupmold.service.idempotency.KeyedRequest;
import layupmold.service.idempotency.OncePerKey;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import layupmold.service.settings.FarmSettings;
import layupmold.service.webhook.Outbox;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.scheduling.annotation.Scheduled;
import org.springframework.stereotype.Service;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Hands out plates. A print is taken by changing its row from ready to leased, so no two agents, on whatever nodes, get
 * the same one; a plate is taken whole or not at all.
 */
@Service
public class Leases {

    private static final Logger LOG = LoggerFactory.getLogger(Leases.class);
    private static final int ATTEMPTS = 8;
    private static final Duration KEPT = Duration.ofDays(7);

    private final LeaseTable leases;
    private final PrintTable prints;
    private final PlateBuilder plates;
    private final Outbox outbox;
    private final OncePerKey once;
    private final TransactionTemplate transaction;
    private final FarmSettings settings;
    private final Clock clock;

    Leases(LeaseTable leases, PrintTable prints, PlateBuilder plates, Outbox outbox, OncePerKey once,
            TransactionTemplate transaction, FarmSettings settings, Clock clock) {
        this.leases = leases;
        this.prints = prints;
        this.plates = plates;
        this.outbox = outbox;
        this.once = once;
        this.transaction = transaction;
        this.settings = settings;
        this.clock = clock;
    }

    /** Rolls back a plate of which another agent was quicker to take a print. */
    private static final class TakenMeanwhile extends RuntimeException {
        TakenMeanwhile() {
            super(null, null, false, false);
        }
    }

    /** The next plate for a printer; empty if nothing that waits fits it. */
    public Optional<LeaseRow> lease(LeaseRequest printer, KeyedRequest request) {
        expire();
        for (int i = 0; i < ATTEMPTS; i++) {
            try {
                return once.run(request, List.of(printer.toString()), () -> take(printer, request.owner()),
                        taken -> taken.map(LeaseRow::id).orElse("none"),
                        id -> leases.find(id, request.owner()).map(Optional::of));
            } catch (TakenMeanwhile tryAgain) {
                LOG.debug("another agent was quicker");
            }
        }
        throw new ProblemException(ProblemKind.OVERLOADED, "Other agents were quicker " + ATTEMPTS + " times.");
    }

    private Optional<LeaseRow> take(LeaseRequest printer, String owner) {
        return plates.build(prints.ready(owner, settings.lookedAt()), printer).map(plate -> {
            Instant now = now();
            LeaseRow lease = new LeaseRow(UUID.randomUUID().toString(), owner, printer.agent(), LeaseStatus.LEASED,
                    plate.material(), plate.file(), now, now.plus(settings.lease()));
            leases.insert(lease);
            for (PlateCopy copy : plate.copies()) {
                if (!prints.take(copy, lease.id())) {
                    throw new TakenMeanwhile();
                }
            }
            tell(lease, "leased", null);
            LOG.info("agent {} leases {} prints", lease.agent(), plate.copies().size());
            return lease;
        });
    }

    /** @throws ProblemException if the lease has ended */
    public LeaseRow renew(String id, String owner) {
        Instant now = now();
        require(leases.renew(id, owner, now, now.plus(settings.lease())), id, owner);
        return leases.find(id, owner).orElseThrow();
    }

    /** Everything on the plate is printed. Saying so twice is saying it once. */
    public LeaseRow done(String id, String owner) {
        return end(id, owner, LeaseStatus.DONE, lease -> {
            prints.finish(id);
            tell(lease, "done", null);
        });
    }

    /** The plate went wrong: its prints go back into the queue, or are given up after their tries. */
    public LeaseRow failed(String id, String owner, String reason) {
        return end(id, owner, LeaseStatus.FAILED, lease -> {
            tell(lease, "failed", reason);
            prints.putBack(id, true, settings.maxTries(), reason);
        });
    }

    private LeaseRow end(String id, String owner, LeaseStatus how, Consumer<LeaseRow> andThen) {
        return transaction.execute(status -> {
            if (leases.end(id, owner, how, now())) {
                andThen.accept(leases.find(id, owner).orElseThrow());
            } else {
                require(leases.find(id, owner).filter(lease -> lease.status() == how).isPresent(), id, owner);
            }
            return leases.find(id, owner).orElseThrow();
        });
    }

    private void require(boolean holds, String id, String owner) {
        if (!holds) {
            leases.find(id, owner).orElseThrow(
                    () -> new ProblemException(ProblemKind.NOT_FOUND, "There is no lease " + id + "."));
            throw new ProblemException(ProblemKind.LEASE_LOST,
                    "The lease has ended or run out; its prints may be somebody else's now.");
        }
    }

    /** Puts the prints of silent agents back into the queue. Every node may do it. */
    @Scheduled(fixedDelayString = "${layupmold.farm.look-for-silent-every:15s}")
    void expire() {
        Instant now = now();
        leases.deleteEnded(now.minus(KEPT));
        for (String id : leases.due(now)) {
            transaction.executeWithoutResult(status -> {
                if (leases.expire(id, now)) {
                    leases.find(id).ifPresent(lease -> tell(lease, "expired", "The agent fell silent."));
                    prints.putBack(id, false, Integer.MAX_VALUE, "The agent fell silent.");
                    LOG.info("lease {} ran out", id);
                }
            });
        }
    }

    /** One event for every job on the plate; the jobs' rows are locked first, so that events of one mold keep their order. */
    private void tell(LeaseRow lease, String what, String detail) {
        Map<String, PlateCopy> jobs = new TreeMap<>();
        prints.onPlate(lease.id()).forEach(copy -> jobs.putIfAbsent(copy.jobId(), copy));
        jobs.values().forEach(copy -> {
            prints.lock(copy.jobId());
            String mold = "/v1/molds/" + copy.moldId();
            outbox.append(lease.owner(), "layupmold.print." + what, mold, new EventData(what, copy.name(), mold, null,
                    copy.jobId(), "/v1/farm/leases/" + lease.id(), lease.agent(), detail));
        });
    }

    private Instant now() {
        return clock.instant().truncatedTo(ChronoUnit.MICROS);
    }
}
