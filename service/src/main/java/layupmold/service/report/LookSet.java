package layupmold.service.report;

import java.util.List;
import layupmold.geometry.MoldOutcome.Mold;
import layupmold.geometry.Progress;
import layupmold.geometry.finding.Rejection;
import layupmold.service.recipe.AcceptedRecipe;

/** Files that are made of a finished mold all at once, when the first of them is asked for. */
public interface LookSet {

    /** Name of the file that stands for the set: if it is there, so are the others. */
    String mainFile();

    /**
     * The same mold and recipe give the same bytes.
     *
     * @param title what to call the mold
     * @param progress told at every stage; may stop the work
     * @throws Rejection if they cannot be made of it
     */
    List<LookFile> of(String title, Mold mold, AcceptedRecipe recipe, Progress progress);
}
