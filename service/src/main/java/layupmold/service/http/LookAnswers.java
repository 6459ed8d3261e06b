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
import layupmold.service.report.LookSet;
import layupmold.service.store.BlobStore;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Component;

/** Answers with files that are made of a finished mold when they are first asked for. */
@Component
class LookAnswers {

    private final MoldTable molds;
    private final LookDesk desk;
    private final BlobStore store;

    LookAnswers(MoldTable molds, LookDesk desk, BlobStore store) {
        this.molds = molds;
        this.desk = desk;
        this.store = store;
    }

    /**
     * @param set what makes the file
     * @param name its name
     * @param type what it is
     */
    ResponseEntity<?> file(String id, LookSet set, String name, MediaType type, HttpServletRequest request)
            throws IOException {
        Negotiation.require(request.getHeader(HttpHeaders.ACCEPT), List.of(type));
        MoldRow mold = molds.find(id, Callers.owner(request)).orElseThrow(() -> notFound(id, name));
        if (mold.files() == null) {
            throw new ProblemException(ProblemKind.NOT_READY,
                    "The mold is " + mold.status().name().toLowerCase(Locale.ROOT) + ".",
                    MoldView.path(id), List.of(), List.of());
        }
        LookDesk.Shown shown = desk.file(mold, set, name).orElseThrow(() -> notFound(id, name));
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
