package layupmold.service.making;

import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.Map;
import layupmold.api.ContractJson;
import layupmold.geometry.MoldOutcome.Mold;
import layupmold.geometry.mesh.io.StlWriter;
import layupmold.geometry.mesh.io.ThreeMfWriter;
import layupmold.service.jobs.MoldFiles;
import layupmold.service.recipe.AcceptedRecipe;
import layupmold.service.store.BlobStore;
import org.springframework.stereotype.Component;

/** Writes a mold's files into the store. */
@Component
public class MoldPackager {

    private final BlobStore store;

    MoldPackager(BlobStore store) {
        this.store = store;
    }

    public MoldFiles write(Mold mold, AcceptedRecipe recipe, String partSha256) throws IOException {
        byte[] report = ContractJson.write(
                ReportMapping.REPORTS.toContract(recipe, partSha256, mold.partToMold(), mold.report()));
        return new MoldFiles(
                store.put(out -> StlWriter.write(mold.solid(), header(recipe), out)),
                store.put(out -> ThreeMfWriter.write(mold.solid(), mold.regions(), metadata(recipe), out)),
                store.put(out -> out.write(report)));
    }

    private static String header(AcceptedRecipe recipe) {
        return "mold in mm, recipe " + recipe.hash().substring(0, 16);
    }

    private static Map<String, String> metadata(AcceptedRecipe recipe) {
        Map<String, String> metadata = new LinkedHashMap<>();
        if (recipe.effective().title() != null) {
            metadata.put("Title", recipe.effective().title());
        }
        metadata.put("Application", "Layupmold");
        metadata.put("material", recipe.effective().printer().material().name());
        metadata.put("recipeHash", recipe.hash());
        return metadata;
    }
}
