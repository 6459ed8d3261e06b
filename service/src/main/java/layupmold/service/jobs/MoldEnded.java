package layupmold.service.jobs;

import java.time.Duration;
import java.time.Instant;
import java.util.Locale;
import layupmold.api.mold.MoldStatus;
import layupmold.api.problem.Problem;
import layupmold.api.report.SeverityLevel;
import layupmold.service.problem.ProblemKind;

/**
 * Published whenever work on a mold has come to its end.
 *
 * @param code why there is no mold: the finding's code if the part was rejected, the kind of problem otherwise; or "none"
 * @param took time since the last try began, or null if the mold was carried over from another one
 */
public record MoldEnded(Lane lane, MoldStatus status, String code, Duration took) {

    /** @param problem why there is no mold, or null if there is one */
    static MoldEnded of(MoldRow mold, MoldStatus status, Problem problem, Instant now) {
        Duration took = mold.startedAt() == null ? null : Duration.between(mold.startedAt(), now);
        return new MoldEnded(mold.lane(), status, problem == null ? "none" : code(problem), took);
    }

    private static String code(Problem problem) {
        String kind = problem.type().substring(problem.type().lastIndexOf('/') + 1);
        if (!kind.equals(ProblemKind.PART_REJECTED.slug())) {
            return kind;
        }
        return problem.findings().stream().filter(finding -> finding.severity() == SeverityLevel.ERROR)
                .map(finding -> finding.code().toLowerCase(Locale.ROOT)).findFirst().orElse(kind);
    }
}
