package layupmold.service.http;

import java.io.IOException;
import layupmold.api.ContractJson;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import org.apache.catalina.connector.Request;
import org.apache.catalina.connector.Response;
import org.apache.catalina.valves.ErrorReportValve;

/** Answers requests that are refused before they reach the application, such as ones with a malformed path. */
public class ProblemReportValve extends ErrorReportValve {

    @Override
    protected void report(Request request, Response response, Throwable error) {
        int status = response.getStatus();
        if (status < 400 || response.getContentWritten() > 0 || !response.setErrorReported()) {
            return;
        }
        ProblemException problem = new ProblemException(ProblemKind.of(status), "The server refused the request.");
        try {
            response.setContentType("application/problem+json");
            response.getOutputStream().write(ContractJson.write(problem.problem()));
            response.finishResponse();
        } catch (IOException | IllegalStateException clientIsGone) {
            response.setSuspended(true);
        }
    }
}
