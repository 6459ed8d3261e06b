package layupmold.service.http;

import jakarta.servlet.http.HttpServletRequest;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import layupmold.api.mold.MoldList;
import layupmold.api.mold.MoldStatus;
import layupmold.service.access.Callers;
import layupmold.service.jobs.MoldRow;
import layupmold.service.jobs.MoldTable;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import org.springframework.http.HttpHeaders;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;

/** Lists molds a page at a time. */
@RestController
class MoldListController {

    private static final int LARGEST_PAGE = 200;

    private final MoldTable molds;

    MoldListController(MoldTable molds) {
        this.molds = molds;
    }

    @GetMapping("/v1/molds")
    ResponseEntity<MoldList> list(
            @RequestParam(required = false) String status,
            @RequestParam(defaultValue = "50") int limit,
            @RequestParam(required = false) String cursor,
            HttpServletRequest request) {
        Negotiation.require(request.getHeader(HttpHeaders.ACCEPT), List.of(Media.JSON));
        if (limit < 1 || limit > LARGEST_PAGE) {
            throw new ProblemException(ProblemKind.BAD_REQUEST, "limit lies between 1 and " + LARGEST_PAGE + ".");
        }
        Cursor from = cursor == null ? Cursor.NEWEST : Cursor.parse(cursor);
        List<MoldRow> rows = molds.page(
                Callers.owner(request), status(status), from.time(), from.id(), limit + 1);
        List<MoldRow> page = rows.subList(0, Math.min(limit, rows.size()));
        String next = rows.size() <= limit ? null : "/v1/molds?limit=" + limit
                + (status == null ? "" : "&status=" + status) + "&cursor=" + Cursor.after(page.get(limit - 1));
        return ResponseEntity.ok().contentType(Media.JSON)
                .body(new MoldList(page.stream().map(MoldView::resource).toList(), next));
    }

    private static MoldStatus status(String word) {
        return word == null ? null : Arrays.stream(MoldStatus.values())
                .filter(status -> status.name().toLowerCase(Locale.ROOT).equals(word)).findFirst()
                .orElseThrow(() -> new ProblemException(ProblemKind.BAD_REQUEST, "There is no status " + word + "."));
    }
}
