package layupmold.service.http;

import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.net.URI;
import java.util.List;
import java.util.Optional;
import layupmold.api.farm.Lease;
import layupmold.api.farm.LeaseFailure;
import layupmold.api.farm.LeaseItem;
import layupmold.api.farm.LeaseRequest;
import layupmold.service.access.Callers;
import layupmold.service.farm.LeaseRow;
import layupmold.service.farm.LeaseTable;
import layupmold.service.farm.Leases;
import layupmold.service.farm.PrintTable;
import layupmold.service.idempotency.KeyedRequest;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import layupmold.service.store.BlobStore;
import org.springframework.http.ContentDisposition;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RestController;

/** What a print farm's agents talk to. */
@RestController
class LeaseController {

    private static final String SECONDS_UNTIL_NEXT_LOOK = "30";

    private final JsonBody bodies;
    private final Leases leases;
    private final LeaseTable table;
    private final PrintTable prints;
    private final BlobStore store;

    LeaseController(JsonBody bodies, Leases leases, LeaseTable table, PrintTable prints, BlobStore store) {
        this.bodies = bodies;
        this.leases = leases;
        this.table = table;
        this.prints = prints;
        this.store = store;
    }

    @PostMapping("/v1/farm/leases")
    ResponseEntity<Lease> lease(HttpServletRequest request) throws IOException {
        require(request, Media.JSON);
        KeyedRequest keyed = KeyedRequest.of(request);
        Optional<LeaseRow> lease = leases.lease(bodies.read(request, LeaseRequest.class), keyed);
        return lease.map(row -> ResponseEntity.status(HttpStatus.CREATED).location(URI.create(path(row)))
                        .contentType(Media.JSON).body(resource(row)))
                .orElseGet(() -> ResponseEntity.noContent()
                        .header(HttpHeaders.RETRY_AFTER, SECONDS_UNTIL_NEXT_LOOK).build());
    }

    @GetMapping("/v1/farm/leases/{id}")
    ResponseEntity<Lease> get(@PathVariable String id, HttpServletRequest request) {
        require(request, Media.JSON);
        return answer(find(id, request));
    }

    /** Of these three, saying it twice is saying it once, so there is nothing to remember of the key. */
    @PostMapping("/v1/farm/leases/{id}/renew")
    ResponseEntity<Lease> renew(@PathVariable String id, HttpServletRequest request) {
        require(request, Media.JSON);
        return answer(leases.renew(id, KeyedRequest.of(request).owner()));
    }

    @PostMapping("/v1/farm/leases/{id}/done")
    ResponseEntity<Lease> done(@PathVariable String id, HttpServletRequest request) {
        require(request, Media.JSON);
        return answer(leases.done(id, KeyedRequest.of(request).owner()));
    }

    @PostMapping("/v1/farm/leases/{id}/failed")
    ResponseEntity<Lease> failed(@PathVariable String id, HttpServletRequest request) throws IOException {
        require(request, Media.JSON);
        KeyedRequest keyed = KeyedRequest.of(request);
        return answer(leases.failed(id, keyed.owner(), bodies.read(request, LeaseFailure.class).reason()));
    }

    @GetMapping("/v1/farm/leases/{id}/plate.3mf")
    ResponseEntity<BlobResource> plate(@PathVariable String id, HttpServletRequest request) {
        require(request, Media.THREE_MF);
        LeaseRow lease = find(id, request);
        return ResponseEntity.ok().eTag('"' + lease.plate().key() + '"').contentType(Media.THREE_MF)
                .contentLength(lease.plate().bytes())
                .header(HttpHeaders.CONTENT_DISPOSITION,
                        ContentDisposition.attachment().filename("plate.3mf").build().toString())
                .body(new BlobResource(store, lease.plate()));
    }

    private LeaseRow find(String id, HttpServletRequest request) {
        return table.find(id, Callers.owner(request)).orElseThrow(
                () -> new ProblemException(ProblemKind.NOT_FOUND, "There is no lease " + id + "."));
    }

    private ResponseEntity<Lease> answer(LeaseRow lease) {
        return ResponseEntity.ok().contentType(Media.JSON).header(HttpHeaders.CACHE_CONTROL, "no-cache")
                .body(resource(lease));
    }

    private Lease resource(LeaseRow lease) {
        List<LeaseItem> items = prints.onPlate(lease.id()).stream()
                .map(copy -> new LeaseItem(copy.jobId(), MoldView.path(copy.moldId()), copy.name(), copy.xMm(), copy.yMm(),
                        90.0 * copy.quarterTurns())).toList();
        return new Lease(lease.id(), lease.agent(), lease.status(), lease.material(), items, lease.expiresAt(),
                path(lease) + "/plate.3mf");
    }

    private static String path(LeaseRow lease) {
        return "/v1/farm/leases/" + lease.id();
    }

    private static void require(HttpServletRequest request, MediaType type) {
        Negotiation.require(request.getHeader(HttpHeaders.ACCEPT), List.of(type));
    }
}
