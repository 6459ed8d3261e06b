package layupmold.service.http;

import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import layupmold.service.access.Callers;
import layupmold.service.events.MoldWatch;
import layupmold.service.idempotency.KeyedRequest;
import layupmold.service.jobs.MoldJobs;
import layupmold.service.jobs.MoldRow;
import layupmold.service.jobs.NewMold;
import layupmold.service.recipe.AcceptedRecipe;
import layupmold.service.recipe.RecipeReader;
import layupmold.service.settings.WaitSettings;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RestController;

/** Takes parts. */
@RestController
class PostMoldController {

    private static final List<MediaType> OFFERED = List.of(Media.JSON, Media.STL, Media.THREE_MF);

    private final UploadReader uploads;
    private final RecipeReader recipes;
    private final MoldJobs jobs;
    private final MoldWatch watch;
    private final MoldAnswers answers;
    private final WaitSettings waiting;

    PostMoldController(UploadReader uploads, RecipeReader recipes, MoldJobs jobs, MoldWatch watch, MoldAnswers answers,
            WaitSettings waiting) {
        this.uploads = uploads;
        this.recipes = recipes;
        this.jobs = jobs;
        this.watch = watch;
        this.answers = answers;
        this.waiting = waiting;
    }

    @PostMapping("/v1/molds")
    CompletableFuture<ResponseEntity<?>> post(HttpServletRequest request) throws IOException {
        MediaType asked = Negotiation.require(request.getHeader(HttpHeaders.ACCEPT), OFFERED);
        KeyedRequest keyed = KeyedRequest.of(request);
        Preferences preferences = Preferences.parse(request.getHeaders("Prefer"));
        Upload upload = uploads.read(request);
        AcceptedRecipe recipe = recipes.read(upload.recipeJson());
        MoldRow mold = jobs.accept(new NewMold(Callers.owner(request), upload.part(), upload.name(), recipe), keyed);
        Duration usual = asked.equals(Media.JSON) ? Duration.ZERO : waiting.forMold();
        return watch.untilFinished(mold, preferences.wait(usual, waiting.most()))
                .thenApply(row -> row == null ? mold : row)
                .thenApply(row -> preferences.applied(answers.toPost(row, asked)));
    }
}
