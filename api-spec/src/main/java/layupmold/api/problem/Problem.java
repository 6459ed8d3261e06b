package layupmold.api.problem;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;
import layupmold.api.report.ReportFinding;

/**
 * Problem details (RFC 9457).
 *
 * @param type stable URI of the kind of problem; programs switch on it, nothing is served there
 * @param title the kind in a few words
 * @param status HTTP status
 * @param detail this occurrence, for people
 * @param instance path of the resource concerned, or null
 * @param errors fields that cannot be accepted, or empty
 * @param findings what the mold maker found, or empty
 */
@Serdeable
public record Problem(
        String type,
        String title,
        int status,
        String detail,
        String instance,
        List<FieldError> errors,
        List<ReportFinding> findings) {

    /** Its media type. */
    public static final String MEDIA_TYPE = "application/problem+json";

    public Problem {
        errors = errors == null ? List.of() : List.copyOf(errors);
        findings = findings == null ? List.of() : List.copyOf(findings);
    }
}
