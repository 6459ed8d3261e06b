package layupmold.samples.client;

import java.util.stream.Collectors;
import layupmold.api.problem.Problem;

/** The service answered with a problem (RFC 9457). */
public final class ServiceProblem extends RuntimeException {

    private final transient Problem problem;

    ServiceProblem(Problem problem) {
        super(worded(problem));
        this.problem = problem;
    }

    public Problem problem() {
        return problem;
    }

    private static String worded(Problem problem) {
        String fields = problem.errors().stream()
                .map(error -> "\n  " + error.pointer() + ": " + error.detail()).collect(Collectors.joining());
        String findings = problem.findings().stream()
                .filter(finding -> !finding.message().equals(problem.detail()))
                .map(finding -> "\n  " + finding.stage() + ": " + finding.message()).collect(Collectors.joining());
        return problem.title() + " (" + problem.status() + "): " + problem.detail() + fields + findings;
    }
}
