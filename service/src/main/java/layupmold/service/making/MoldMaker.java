package layupmold.service.making;

import layupmold.geometry.MoldOutcome;
import layupmold.geometry.Progress;
import layupmold.geometry.recipe.Recipe;

/** Makes a mold of a part file: the service's one door to the geometry. */
@FunctionalInterface
public interface MoldMaker {

    /**
     * @param part the file's bytes, format unknown
     * @param fileName its name, or null
     * @param recipe what to make of it
     * @param progress told at every stage; may stop the work by throwing {@link java.util.concurrent.CancellationException}
     */
    MoldOutcome make(byte[] part, String fileName, Recipe recipe, Progress progress);
}
