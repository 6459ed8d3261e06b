package layupmold.service.problem;

import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import layupmold.api.ContractJson;
import layupmold.api.problem.Problem;

/** Tells a problem where no controller has been reached. */
public final class ProblemAnswer {

    private ProblemAnswer() {
    }

    public static void write(HttpServletResponse response, ProblemException problem) throws IOException {
        response.setStatus(problem.problem().status());
        response.setContentType(Problem.MEDIA_TYPE);
        response.getOutputStream().write(ContractJson.write(problem.problem()));
    }
}
