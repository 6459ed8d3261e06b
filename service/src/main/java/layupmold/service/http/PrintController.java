package layupmold.service.http;

import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.util.List;
import layupmold.api.farm.PrintJob;
import layupmold.api.farm.PrintList;
import layupmold.api.farm.PrintOrder;
import layupmold.api.farm.PrintOrderRequest;
import layupmold.service.access.Callers;
import layupmold.service.farm.PrintOrders;
import layupmold.service.farm.PrintRow;
import layupmold.service.farm.PrintTable;
import layupmold.service.idempotency.KeyedRequest;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RestController;

/** Orders prints and shows how far they are. */
@RestController
class PrintController {

    private static final int MOST_LISTED = 500;

    private final JsonBody bodies;
    private final PrintOrders orders;
    private final PrintTable prints;

    PrintController(JsonBody bodies, PrintOrders orders, PrintTable prints) {
        this.bodies = bodies;
        this.orders = orders;
        this.prints = prints;
    }

    @PostMapping("/v1/prints")
    ResponseEntity<PrintOrder> order(HttpServletRequest request) throws IOException {
        requireJson(request);
        KeyedRequest keyed = KeyedRequest.of(request);
        List<PrintRow> jobs = orders.order(bodies.read(request, PrintOrderRequest.class), keyed);
        return ResponseEntity.status(HttpStatus.CREATED).contentType(Media.JSON)
                .body(new PrintOrder(jobs.get(0).orderId(), jobs.stream().map(PrintController::resource).toList()));
    }

    @GetMapping("/v1/prints")
    ResponseEntity<PrintList> list(HttpServletRequest request) {
        requireJson(request);
        return ResponseEntity.ok().contentType(Media.JSON).body(new PrintList(prints
                .unfinished(Callers.owner(request), MOST_LISTED).stream().map(PrintController::resource).toList()));
    }

    @GetMapping("/v1/prints/{id}")
    ResponseEntity<PrintJob> get(@PathVariable String id, HttpServletRequest request) {
        requireJson(request);
        PrintRow job = prints.find(id, Callers.owner(request)).stream().findFirst().orElseThrow(() -> notFound(id));
        return ResponseEntity.ok().contentType(Media.JSON).body(resource(job));
    }

    /** Cancelling twice is cancelling once, so there is nothing to remember of the key. */
    @PostMapping("/v1/prints/{id}/cancel")
    ResponseEntity<PrintJob> cancel(@PathVariable String id, HttpServletRequest request) {
        requireJson(request);
        KeyedRequest keyed = KeyedRequest.of(request);
        PrintRow job = orders.cancel(id, keyed.owner()).orElseThrow(() -> notFound(id));
        return ResponseEntity.ok().contentType(Media.JSON).body(resource(job));
    }

    private static PrintJob resource(PrintRow job) {
        return new PrintJob(job.id(), job.orderId(), MoldView.path(job.moldId()), job.name(), job.priority(),
                job.quantity(), job.waiting(), job.leased(), job.done(), job.failed(), job.reason(), job.createdAt());
    }

    private static void requireJson(HttpServletRequest request) {
        Negotiation.require(request.getHeader(HttpHeaders.ACCEPT), List.of(Media.JSON));
    }

    private static ProblemException notFound(String id) {
        return new ProblemException(ProblemKind.NOT_FOUND, "There is no print " + id + ".");
    }
}
