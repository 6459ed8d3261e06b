package layupmold.service.http;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import layupmold.api.ContractJson;
import layupmold.api.mold.MoldLinks;
import layupmold.api.mold.MoldResource;
import layupmold.api.mold.MoldStatus;
import layupmold.api.mold.PostedPart;
import layupmold.api.problem.Problem;
import layupmold.api.recipe.MoldRecipe;
import layupmold.api.recipe.PaperSize;
import layupmold.service.jobs.MoldRow;
import layupmold.service.store.Sha256;

/** Molds as the contract shows them. */
public final class MoldView {

    private MoldView() {
    }

    public static String path(String id) {
        return "/v1/molds/" + id;
    }

    public static MoldResource resource(MoldRow mold) {
        MoldRecipe recipe = read(mold.recipeJson(), MoldRecipe.class);
        return new MoldResource(
                mold.id(), mold.status(), mold.stage(), mold.percent(), mold.title(),
                new PostedPart(mold.partName(), mold.part().bytes(), mold.part().key()),
                recipe, mold.recipeHash(),
                mold.createdAt(), mold.startedAt(), mold.finishedAt(), mold.expiresAt(),
                links(mold, recipe), problem(mold));
    }

    /** Why there is no mold, or null. */
    public static Problem problem(MoldRow mold) {
        return mold.problemJson() == null ? null : read(mold.problemJson(), Problem.class);
    }

    /** ETag of a resource as it is written out. */
    static String eTag(MoldResource resource) {
        return '"' + Sha256.hex(ContractJson.write(resource)).substring(0, 32) + '"';
    }

    private static MoldLinks links(MoldRow mold, MoldRecipe recipe) {
        String self = path(mold.id());
        boolean done = mold.status() == MoldStatus.DONE;
        return new MoldLinks(self, self + "/events",
                done ? self + "/mold.stl" : null, done ? self + "/mold.3mf" : null, done ? self + "/report.json" : null,
                done ? self + "/report.html" : null, done ? self + "/mold.glb" : null,
                done ? self + "/kit.json" : null, done ? self + "/kit/templates-" + paper(recipe) + ".pdf" : null,
                done ? self + "/kit/work-card.pdf" : null, done ? self + "/coupon.json" : null);
    }

    /** Recipes stored before there were kits have none. */
    private static String paper(MoldRecipe recipe) {
        return (recipe.kit() == null ? PaperSize.A4 : recipe.kit().paper()).name().toLowerCase(Locale.ROOT);
    }

    private static <T> T read(String json, Class<T> type) {
        try {
            return ContractJson.read(json.getBytes(StandardCharsets.UTF_8), type);
        } catch (IOException e) {
            throw new UncheckedIOException("stored JSON cannot be read", e);
        }
    }
}
