package layupmold.service.farm;

import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import layupmold.api.farm.PrintOrderRequest;
import layupmold.service.batch.BatchRow;
import layupmold.service.batch.BatchTable;
import layupmold.service.batch.PartRow;
import layupmold.service.idempotency.KeyedRequest;
import layupmold.service.idempotency.OncePerKey;
import layupmold.service.jobs.MoldRow;
import layupmold.service.jobs.MoldTable;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import org.springframework.stereotype.Service;
import org.springframework.transaction.support.TransactionTemplate;

/** Takes orders for prints. */
@Service
public class PrintOrders {

    private final PrintTable prints;
    private final MoldTable molds;
    private final BatchTable batches;
    private final OncePerKey once;
    private final TransactionTemplate transaction;
    private final Clock clock;

    PrintOrders(PrintTable prints, MoldTable molds, BatchTable batches, OncePerKey once, TransactionTemplate transaction,
            Clock clock) {
        this.prints = prints;
        this.molds = molds;
        this.batches = batches;
        this.once = once;
        this.transaction = transaction;
        this.clock = clock;
    }

    /**
     * The jobs of an order, committed; of a request that was sent before with the same key the earlier ones.
     *
     * @throws ProblemException if there is no such mold or suit, or the suit is still being sorted
     */
    public List<PrintRow> order(PrintOrderRequest wanted, KeyedRequest request) {
        return once.run(request, List.of(wanted.toString()), () -> insert(wanted, request.owner()),
                jobs -> jobs.get(0).orderId(),
                order -> Optional.of(prints.ofOrder(order, request.owner())).filter(jobs -> !jobs.isEmpty()));
    }

    private List<PrintRow> insert(PrintOrderRequest wanted, String owner) {
        // Names by mold: a mold that serves several parts of a suit is printed once.
        Map<String, String> wantedMolds = wanted.mold() != null ? mold(wanted.mold(), owner) : suit(wanted.batch(), owner);
        String order = UUID.randomUUID().toString();
        Instant now = clock.instant().truncatedTo(ChronoUnit.MICROS);
        int quantity = wanted.quantity() == null ? 1 : wanted.quantity();
        int priority = wanted.priority() == null ? 0 : wanted.priority();
        long position = 0;
        for (Map.Entry<String, String> mold : wantedMolds.entrySet()) {
            // A microsecond apart, so that the order of the parts is kept.
            prints.insert(new PrintRow(UUID.randomUUID().toString(), order, mold.getKey(), mold.getValue(), priority,
                    quantity, quantity, 0, 0, 0, null, now.plus(position++, ChronoUnit.MICROS)), owner);
        }
        return prints.ofOrder(order, owner);
    }

    private Map<String, String> mold(String id, String owner) {
        MoldRow mold = molds.find(id, owner).orElseThrow(() -> notFound("mold " + id));
        String name = mold.title() != null ? mold.title() : mold.partName() != null ? mold.partName() : "Mold";
        return Map.of(id, name);
    }

    private Map<String, String> suit(String id, String owner) {
        BatchRow batch = batches.find(id, owner).orElseThrow(() -> notFound("batch " + id));
        if (!batch.sorted()) {
            throw new ProblemException(ProblemKind.NOT_READY, "The parts are being compared.");
        }
        Map<String, String> names = new LinkedHashMap<>();
        for (PartRow part : batches.parts(id)) {
            boolean shared = part.like() != null && !part.like().mirrored();
            if (part.mold() != null && !shared && molds.find(part.mold()).isPresent()) {
                names.put(part.mold(), part.name());
            }
        }
        if (names.isEmpty()) {
            throw notFound("mold in batch " + id);
        }
        return names;
    }

    /** Withdraws the prints that nobody has taken. */
    public Optional<PrintRow> cancel(String id, String owner) {
        return transaction.execute(status -> {
            Optional<PrintRow> job = prints.find(id, owner).stream().findFirst();
            job.ifPresent(row -> prints.cancel(row.id()));
            return job.flatMap(row -> prints.find(id, owner).stream().findFirst());
        });
    }

    private static ProblemException notFound(String what) {
        return new ProblemException(ProblemKind.NOT_FOUND, "There is no " + what + ".");
    }
}
