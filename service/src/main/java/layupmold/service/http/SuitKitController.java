package layupmold.service.http;

import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.util.List;
import layupmold.api.kit.SuitKitDocument;
import layupmold.service.access.Callers;
import layupmold.service.batch.BatchRow;
import layupmold.service.batch.BatchTable;
import layupmold.service.batch.BatchView;
import layupmold.service.batch.SuitKits;
import layupmold.service.kit.SuitKit;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RestController;

/** What a suit's parts take together: common rolls and a shopping list. */
@RestController
class SuitKitController {

    private static final MediaType HTML = MediaType.valueOf("text/html;charset=UTF-8");

    private final BatchTable batches;
    private final BatchView view;
    private final SuitKits kits;

    SuitKitController(BatchTable batches, BatchView view, SuitKits kits) {
        this.batches = batches;
        this.view = view;
        this.kits = kits;
    }

    @GetMapping("/v1/batches/{id}/kit.json")
    ResponseEntity<SuitKitDocument> figures(@PathVariable String id, HttpServletRequest request) throws IOException {
        return ResponseEntity.ok().contentType(Media.JSON).header(HttpHeaders.CACHE_CONTROL, "no-cache")
                .body(kit(id, Media.JSON, request).document());
    }

    @GetMapping("/v1/batches/{id}/kit/cut-layout-{number}.svg")
    ResponseEntity<byte[]> cutLayout(@PathVariable String id, @PathVariable String number, HttpServletRequest request)
            throws IOException {
        return file(id, "cut-layout-" + number + ".svg", Media.SVG, Media.SVG, request);
    }

    @GetMapping("/v1/batches/{id}/kit/shopping-list.pdf")
    ResponseEntity<byte[]> shoppingListPdf(@PathVariable String id, HttpServletRequest request) throws IOException {
        return file(id, "shopping-list.pdf", MediaType.APPLICATION_PDF, MediaType.APPLICATION_PDF, request);
    }

    @GetMapping("/v1/batches/{id}/kit/shopping-list.html")
    ResponseEntity<byte[]> shoppingListPage(@PathVariable String id, HttpServletRequest request) throws IOException {
        return file(id, "shopping-list.html", MediaType.TEXT_HTML, HTML, request);
    }

    private ResponseEntity<byte[]> file(String id, String name, MediaType asked, MediaType type,
            HttpServletRequest request) throws IOException {
        byte[] bytes = kit(id, asked, request).files().get(name);
        if (bytes == null) {
            throw new ProblemException(ProblemKind.NOT_FOUND, "There is no " + name + " of a batch " + id + ".");
        }
        return ResponseEntity.ok().contentType(type).header(HttpHeaders.CACHE_CONTROL, "no-cache")
                .header("X-Content-Type-Options", "nosniff").body(bytes);
    }

    private SuitKit kit(String id, MediaType type, HttpServletRequest request) throws IOException {
        Negotiation.require(request.getHeader(HttpHeaders.ACCEPT), List.of(type));
        BatchRow batch = batches.find(id, Callers.owner(request)).orElseThrow(
                () -> new ProblemException(ProblemKind.NOT_FOUND, "There is no batch " + id + "."));
        if (!view.resource(batch).status().isFinal()) {
            throw new ProblemException(ProblemKind.NOT_READY, "The suit is not finished.", BatchView.path(id), List.of(),
                    List.of());
        }
        return kits.of(batch);
    }
}
