package layupmold.service.problem;

import java.io.IOException;
import java.net.SocketTimeoutException;
import layupmold.api.problem.Problem;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.http.converter.HttpMessageNotReadableException;
import org.springframework.web.ErrorResponse;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.bind.annotation.RestControllerAdvice;
import org.springframework.web.context.request.async.AsyncRequestNotUsableException;
import org.springframework.web.method.annotation.MethodArgumentTypeMismatchException;

/** Tells every error as a problem; never a stack trace. */
@RestControllerAdvice
class ProblemAdvice {

    private static final Logger LOG = LoggerFactory.getLogger(ProblemAdvice.class);
    private static final String RETRY_SECONDS = "10";

    @ExceptionHandler
    ResponseEntity<Problem> problem(ProblemException e) {
        HttpHeaders headers = new HttpHeaders();
        if (e.kind() == ProblemKind.OVERLOADED) {
            headers.set(HttpHeaders.RETRY_AFTER, RETRY_SECONDS);
        }
        return answer(e, headers);
    }

    @ExceptionHandler
    ResponseEntity<Problem> malformed(HttpMessageNotReadableException e) {
        return answer(new ProblemException(ProblemKind.MALFORMED_JSON, e.getMessage()), HttpHeaders.EMPTY);
    }

    @ExceptionHandler
    ResponseEntity<Problem> mismatch(MethodArgumentTypeMismatchException e) {
        return answer(new ProblemException(ProblemKind.BAD_REQUEST,
                "The parameter \"" + e.getName() + "\" cannot be read."), HttpHeaders.EMPTY);
    }

    /** The client went away; there is nobody to answer. */
    @ExceptionHandler
    void gone(AsyncRequestNotUsableException e) {
        LOG.debug("a client went away", e);
    }

    @ExceptionHandler
    ResponseEntity<Problem> anythingElse(Exception e) {
        if (e instanceof ErrorResponse known) {
            ProblemKind kind = ProblemKind.of(known.getStatusCode().value());
            return answer(new ProblemException(kind, known.getBody().getDetail()), known.getHeaders());
        }
        if (e instanceof SocketTimeoutException) {
            return answer(new ProblemException(ProblemKind.UPLOAD_TOO_SLOW, "The body stopped arriving."),
                    HttpHeaders.EMPTY);
        }
        if (e instanceof IOException) {
            LOG.debug("a request could not be read to its end", e);
            return answer(new ProblemException(ProblemKind.BAD_REQUEST, "The request broke off."), HttpHeaders.EMPTY);
        }
        LOG.error("a request failed", e);
        return answer(new ProblemException(ProblemKind.INTERNAL, "The error was logged."), HttpHeaders.EMPTY);
    }

    private static ResponseEntity<Problem> answer(ProblemException e, HttpHeaders headers) {
        return ResponseEntity.status(e.problem().status()).headers(headers)
                .contentType(MediaType.APPLICATION_PROBLEM_JSON).body(e.problem());
    }
}
