package layupmold.service.http;

import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import layupmold.service.report.MoldLook;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RestController;

/** What shows a mold to people: report page, model, pictures. */
@RestController
class LookController {

    private final MoldLook look;
    private final LookAnswers answers;

    LookController(MoldLook look, LookAnswers answers) {
        this.look = look;
        this.answers = answers;
    }

    @GetMapping("/v1/molds/{id}/report.html")
    ResponseEntity<?> page(@PathVariable String id, HttpServletRequest request) throws IOException {
        return answers.file(id, look, MoldLook.PAGE, MediaType.TEXT_HTML, request);
    }

    @GetMapping("/v1/molds/{id}/mold.glb")
    ResponseEntity<?> model(@PathVariable String id, HttpServletRequest request) throws IOException {
        return answers.file(id, look, MoldLook.MODEL, Media.GLB, request);
    }

    @GetMapping("/v1/molds/{id}/pictures/{name}.png")
    ResponseEntity<?> picture(@PathVariable String id, @PathVariable String name, HttpServletRequest request)
            throws IOException {
        return answers.file(id, look, MoldLook.PICTURES + name + ".png", MediaType.IMAGE_PNG, request);
    }
}
