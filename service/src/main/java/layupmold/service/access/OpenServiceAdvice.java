package layupmold.service.access;

import org.springframework.boot.diagnostics.AbstractFailureAnalyzer;
import org.springframework.boot.diagnostics.FailureAnalysis;

/** Says in plain words why the service does not start. */
final class OpenServiceAdvice extends AbstractFailureAnalyzer<OpenServiceException> {

    @Override
    protected FailureAnalysis analyze(Throwable failure, OpenServiceException cause) {
        return new FailureAnalysis(cause.getMessage(),
                "Set layupmold.access.api-keys=true, or configure an OAuth 2 server, or bind to 127.0.0.1. "
                        + "Where something in front checks its callers, layupmold.access.open=true starts it anyway.", cause);
    }
}
