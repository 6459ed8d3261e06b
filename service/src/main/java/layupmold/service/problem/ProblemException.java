package layupmold.service.problem;

import java.util.List;
import layupmold.api.problem.FieldError;
import layupmold.api.problem.Problem;
import layupmold.api.report.ReportFinding;

/** Ends a request with a problem. */
public final class ProblemException extends RuntimeException {

    private final transient ProblemKind kind;
    private final transient Problem problem;

    public ProblemException(ProblemKind kind, String detail) {
        this(kind, detail, null, List.of(), List.of());
    }

    public ProblemException(
            ProblemKind kind, String detail, String instance, List<FieldError> errors, List<ReportFinding> findings) {
        super(kind + ": " + detail, null, false, false);
        this.kind = kind;
        this.problem = new Problem(
                kind.type().toString(), kind.title(), kind.status(), detail, instance, errors, findings);
    }

    public ProblemKind kind() {
        return kind;
    }

    public Problem problem() {
        return problem;
    }
}
