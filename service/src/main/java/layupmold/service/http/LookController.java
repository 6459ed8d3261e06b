package layupmold.service.http;

import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.util.List;
import java.util.Locale;
import layupmold.service.access.Callers;
import layupmold.service.jobs.MoldRow;
import layupmold.service.jobs.MoldTable;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import layupmold.service.report.LookDesk;
import layupmold.service.report.MoldLook;
import layupmold.service.store.BlobStore;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RestController;

/** What shows a mold to people: report page, model, pictures. */
@RestController
class LookController {

    private final MoldTable molds;
    private final LookDesk desk;
    private final BlobStore store;

    LookController(MoldTable molds, LookDesk desk, BlobStore store) {
        this.molds = molds;
        this.desk = desk;
        this.store = store;
    }

    @GetMapping("/v1/molds/{id}/report.html")
    ResponseEntity<?> page(@PathVariable String id, HttpServletRequest request) throws IOException {
        return file(id, MoldLook.PAGE, request, MediaType.TEXT_HTML);
    }

    @GetMapping("/v1/molds/{id}/mold.glb")
    ResponseEntity<?> model(@PathVariable String id, HttpServletRequest request) throws IOException {
        return file(id, MoldLook.MODEL, request, Media.GLB);
    }

    @GetMapping("/v1/molds/{id}/pictures/{name}.png")
    ResponseEntity<?> picture(@PathVariable String id, @PathVariable String name, HttpServletRequest request)
            throws IOException {
        return file(id, MoldLook.PICTURES + name + ".png", request, MediaType.IMAGE_PNG);
    }

    private ResponseEntity<?> file(String id, String name, HttpServletRequest request, MediaType type) throws IOException {
        Negotiation.require(request.getHeader(HttpHeaders.ACCEPT), List.of(type));
        MoldRow mold = molds.find(id, Callers.owner(request)).orElseThrow(() -> notFound(id, "mold.stl"));
        if (mold.files() == null) {
            throw new ProblemException(ProblemKind.NOT_READY,
                    "The mold is " + mold.status().name().toLowerCase(Locale.ROOT) + ".",
                    MoldView.path(id), List.of(), List.of());
        }
        LookDesk.Shown shown = desk.file(mold, name).orElseThrow(() -> notFound(id, name));
        MediaType charset = type.equals(MediaType.TEXT_HTML) ? MediaType.valueOf("text/html;charset=UTF-8") : type;
        return ResponseEntity.ok().eTag('"' + shown.blob().key() + '"').contentType(charset)
                .contentLength(shown.blob().bytes())
                .header(HttpHeaders.CACHE_CONTROL, "no-cache")
                .header("X-Content-Type-Options", "nosniff")
                .body(new BlobResource(store, shown.blob()));
    }

    private static ProblemException notFound(String id, String name) {
        return new ProblemException(ProblemKind.NOT_FOUND, "There is no " + name + " of a mold " + id + ".");
    }
}
