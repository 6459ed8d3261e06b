package layupmold.service.http;

import java.net.URI;
import java.util.List;
import java.util.Locale;
import layupmold.api.mold.MoldResource;
import layupmold.api.mold.MoldStatus;
import layupmold.api.problem.Problem;
import layupmold.service.jobs.MoldRow;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import layupmold.service.store.Blob;
import layupmold.service.store.BlobStore;
import org.springframework.http.ContentDisposition;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Component;

/** Turns molds into HTTP answers. */
@Component
class MoldAnswers {

    private static final String SECONDS_UNTIL_NEXT_LOOK = "1";

    private final BlobStore store;

    MoldAnswers(BlobStore store) {
        this.store = store;
    }

    /** The answer to a POST: the mold, its problem, or where to look later. */
    ResponseEntity<?> toPost(MoldRow mold, MediaType asked) {
        URI location = URI.create(MoldView.path(mold.id()));
        if (!mold.status().isFinal()) {
            ResponseEntity.BodyBuilder later = ResponseEntity.accepted().location(location)
                    .header(HttpHeaders.RETRY_AFTER, SECONDS_UNTIL_NEXT_LOOK);
            return asked.equals(Media.JSON)
                    ? later.contentType(Media.JSON).body(MoldView.resource(mold)) : later.build();
        }
        if (mold.status() != MoldStatus.DONE) {
            Problem problem = whyNot(mold);
            return ResponseEntity.status(problem.status()).location(location).contentType(Media.PROBLEM).body(problem);
        }
        if (asked.equals(Media.JSON)) {
            MoldResource resource = MoldView.resource(mold);
            return ResponseEntity.ok().location(location).eTag(MoldView.eTag(resource)).contentType(Media.JSON)
                    .body(resource);
        }
        return file(ResponseEntity.ok().location(location), mold, asked);
    }

    /** The resource itself. */
    ResponseEntity<MoldResource> resource(MoldRow mold) {
        MoldResource resource = MoldView.resource(mold);
        ResponseEntity.BodyBuilder answer = ResponseEntity.ok().eTag(MoldView.eTag(resource)).contentType(Media.JSON);
        if (!mold.status().isFinal()) {
            answer.header(HttpHeaders.RETRY_AFTER, SECONDS_UNTIL_NEXT_LOOK);
        }
        return answer.header(HttpHeaders.CACHE_CONTROL, "no-cache").body(resource);
    }

    /** The mold as STL or 3MF, or its report as JSON. */
    ResponseEntity<?> file(MoldRow mold, MediaType type) {
        if (mold.files() == null) {
            throw new ProblemException(ProblemKind.NOT_READY,
                    "The mold is " + mold.status().name().toLowerCase(Locale.ROOT) + ".",
                    MoldView.path(mold.id()), List.of(), List.of());
        }
        return file(ResponseEntity.ok(), mold, type);
    }

    private ResponseEntity<?> file(ResponseEntity.BodyBuilder answer, MoldRow mold, MediaType type) {
        Blob blob;
        String name;
        if (type.equals(Media.STL)) {
            blob = mold.files().stl();
            name = "mold.stl";
        } else if (type.equals(Media.THREE_MF)) {
            blob = mold.files().threeMf();
            name = "mold.3mf";
        } else {
            blob = mold.files().report();
            name = "report.json";
        }
        String disposition = ContentDisposition.attachment().filename(name).build().toString();
        return answer.eTag('"' + blob.key() + '"').contentType(type).contentLength(blob.bytes())
                .header(HttpHeaders.CONTENT_DISPOSITION, disposition)
                .header(HttpHeaders.CACHE_CONTROL, "no-cache")
                .body(new BlobResource(store, blob));
    }

    private static Problem whyNot(MoldRow mold) {
        Problem problem = MoldView.problem(mold);
        return problem != null ? problem : new ProblemException(ProblemKind.CANCELLED,
                "It was cancelled before it was finished.", MoldView.path(mold.id()), List.of(), List.of()).problem();
    }
}
