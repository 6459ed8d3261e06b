package layupmold.geometry;

/**
 * Where the pipeline tells how far it is and learns that it should stop. Called from the pipeline's thread at the start
 * of every stage; implementations must be quick.
 */
@FunctionalInterface
public interface Progress {

    /** Says nothing and never stops. */
    Progress SILENT = (stage, fraction) -> { };

    /**
     * @param stage the stage that starts, in lower case
     * @param fraction share of the whole work done so far, 0 to 1
     * @throws java.util.concurrent.CancellationException to stop the pipeline
     */
    void at(String stage, double fraction);
}
