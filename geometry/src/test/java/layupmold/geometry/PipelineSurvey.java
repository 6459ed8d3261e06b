package layupmold.geometry;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import layupmold.geometry.mesh.io.PartFile;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.testparts.RandomShells;
import layupmold.geometry.testparts.TestPart;

/** Not a test: runs many random parts and counts what came of them. Arguments: first seed, count. */
final class PipelineSurvey {

    private PipelineSurvey() {
    }

    public static void main(String[] args) {
        long first = Long.parseLong(args[0]);
        int count = Integer.parseInt(args[1]);
        Map<String, Integer> outcomes = new TreeMap<>();
        for (long seed = first; seed < first + count; seed++) {
            TestPart part = RandomShells.shell(seed);
            PartFile file = new PartFile(part.mesh(), "stl-binary", null, List.of());
            long start = System.nanoTime();
            String outcome;
            String detail;
            try {
                MoldOutcome made = MoldPipeline.make(file, Recipe.defaults(), Progress.SILENT);
                if (made instanceof MoldOutcome.Mold mold) {
                    outcome = "mold";
                    detail = "max dev " + mold.report().offset().maxDeviationMm() + " method "
                            + mold.report().offset().method();
                } else {
                    MoldOutcome.Rejected rejected = (MoldOutcome.Rejected) made;
                    outcome = rejected.reason().code();
                    detail = rejected.reason().message() + " " + rejected.reason().figure() + " " + rejected.reason().place();
                }
            } catch (RuntimeException e) {
                outcome = e.getClass().getSimpleName();
                detail = e + " at " + e.getStackTrace()[0];
            }
            outcomes.merge(outcome, 1, Integer::sum);
            System.out.printf("%d %s %d ms %s %s%n   %s%n", seed, outcome, (System.nanoTime() - start) / 1_000_000,
                    part.name(), part.mesh().triangleCount(), detail);
        }
        System.out.println(outcomes);
    }
}
