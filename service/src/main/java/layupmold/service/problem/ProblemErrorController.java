package layupmold.service.problem;

import jakarta.servlet.RequestDispatcher;
import jakarta.servlet.http.HttpServletRequest;
import layupmold.api.problem.Problem;
import org.springframework.boot.webmvc.error.ErrorController;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;

/** The last stop for errors that no controller saw. */
@RestController
class ProblemErrorController implements ErrorController {

    @RequestMapping("${spring.web.error.path:/error}")
    ResponseEntity<Problem> error(HttpServletRequest request) {
        Object code = request.getAttribute(RequestDispatcher.ERROR_STATUS_CODE);
        int status = code instanceof Integer number ? number : 404;
        ProblemKind kind = ProblemKind.of(status);
        return ResponseEntity.status(status).contentType(MediaType.APPLICATION_PROBLEM_JSON)
                .body(new ProblemException(kind, null).problem());
    }
}
