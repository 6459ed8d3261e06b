package layupmold.service.http;

import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import layupmold.service.kit.MoldKit;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RestController;

/** The layup kit of a mold: figures and what to print. */
@RestController
class KitController {

    private final MoldKit kit;
    private final LookAnswers answers;

    KitController(MoldKit kit, LookAnswers answers) {
        this.kit = kit;
        this.answers = answers;
    }

    @GetMapping("/v1/molds/{id}/kit.json")
    ResponseEntity<?> figures(@PathVariable String id, HttpServletRequest request) throws IOException {
        return answers.file(id, kit, MoldKit.KIT, Media.JSON, request);
    }

    @GetMapping("/v1/molds/{id}/kit/resin.json")
    ResponseEntity<?> resin(@PathVariable String id, HttpServletRequest request) throws IOException {
        return answers.file(id, kit, MoldKit.RESIN, Media.JSON, request);
    }

    @GetMapping("/v1/molds/{id}/kit/outlines.json")
    ResponseEntity<?> outlines(@PathVariable String id, HttpServletRequest request) throws IOException {
        return answers.file(id, kit, MoldKit.OUTLINES, Media.JSON, request);
    }

    @GetMapping("/v1/molds/{id}/kit/templates-{paper}.pdf")
    ResponseEntity<?> templates(@PathVariable String id, @PathVariable String paper, HttpServletRequest request)
            throws IOException {
        return printed(id, "templates-" + paper + ".pdf", MediaType.APPLICATION_PDF, request);
    }

    @GetMapping("/v1/molds/{id}/kit/ply-{number}.svg")
    ResponseEntity<?> ply(@PathVariable String id, @PathVariable String number, HttpServletRequest request)
            throws IOException {
        return printed(id, "ply-" + number + ".svg", Media.SVG, request);
    }

    @GetMapping("/v1/molds/{id}/kit/cut-layout-{number}.svg")
    ResponseEntity<?> cutLayout(@PathVariable String id, @PathVariable String number, HttpServletRequest request)
            throws IOException {
        return printed(id, "cut-layout-" + number + ".svg", Media.SVG, request);
    }

    @GetMapping("/v1/molds/{id}/kit/shear-{number}.png")
    ResponseEntity<?> shear(@PathVariable String id, @PathVariable String number, HttpServletRequest request)
            throws IOException {
        return printed(id, "shear-" + number + ".png", MediaType.IMAGE_PNG, request);
    }

    @GetMapping("/v1/molds/{id}/kit/work-card.pdf")
    ResponseEntity<?> workCardPdf(@PathVariable String id, HttpServletRequest request) throws IOException {
        return printed(id, "work-card.pdf", MediaType.APPLICATION_PDF, request);
    }

    @GetMapping("/v1/molds/{id}/kit/work-card.html")
    ResponseEntity<?> workCardPage(@PathVariable String id, HttpServletRequest request) throws IOException {
        return printed(id, "work-card.html", MediaType.TEXT_HTML, request);
    }

    private ResponseEntity<?> printed(String id, String name, MediaType type, HttpServletRequest request)
            throws IOException {
        return answers.file(id, kit, MoldKit.FOLDER + name, type, request);
    }
}
