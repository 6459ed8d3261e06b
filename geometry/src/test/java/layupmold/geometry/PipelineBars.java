package layupmold.geometry;

import java.lang.management.ManagementFactory;
import java.lang.management.MemoryPoolMXBean;
import java.lang.management.MemoryType;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import layupmold.geometry.mesh.io.PartFile;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.testparts.ClosedForms;
import layupmold.geometry.testparts.TestPart;

/**
 * Not a test: times the whole pipeline on spherical cap shells of growing density and prints the median of the total and
 * of each stage, the share of the checks (all of stage "inspect": what a mold must pass and what is measured on it) and
 * the peak heap. Arguments: numbers of triangles; the first is run thrice before it counts, to warm the machine up.
 */
final class PipelineBars {

    private static final int RUNS = 3;

    private PipelineBars() {
    }

    public static void main(String[] args) {
        System.out.println("medians of " + RUNS + " runs");
        System.out.println("triangles    total ms   checks   peak heap MiB   stages ms");
        for (int i = 0; i < args.length; i++) {
            TestPart part = shell(Integer.parseInt(args[i]));
            for (int warm = 0; i == 0 && warm < RUNS; warm++) {
                time(part);
            }
            List<Map<String, Long>> runs = new ArrayList<>();
            resetPeaks();
            for (int run = 0; run < RUNS; run++) {
                runs.add(time(part));
            }
            Map<String, Long> medians = new LinkedHashMap<>();
            runs.get(0).keySet().forEach(stage -> medians.put(stage, median(runs, stage)));
            long total = medians.remove("total");
            System.out.printf("%9d %11d %6d %% %15d   %s%n", part.mesh().triangleCount(), total,
                    Math.round(100.0 * medians.get("inspect") / total), peakMib(), medians);
        }
    }

    private static long median(List<Map<String, Long>> runs, String stage) {
        return runs.stream().mapToLong(run -> run.get(stage)).sorted().toArray()[runs.size() / 2];
    }

    /** Both walls and the rim of a cap of 75°: about 0.83 triangles for every squared segment. */
    private static TestPart shell(int triangles) {
        return ClosedForms.sphericalCap(120, 75, 3, (int) Math.round(Math.sqrt(triangles / 0.83)));
    }

    private static Map<String, Long> time(TestPart part) {
        Map<String, Long> stages = new LinkedHashMap<>();
        String[] stage = {"start"};
        long start = System.nanoTime();
        long[] since = {start};
        MoldOutcome outcome = MoldPipeline.make(new PartFile(part.mesh(), "stl-binary", null, List.of()),
                Recipe.defaults(), (name, share) -> {
                    long now = System.nanoTime();
                    stages.put(stage[0], (now - since[0]) / 1_000_000);
                    stage[0] = name;
                    since[0] = now;
                });
        stages.put("total", (System.nanoTime() - start) / 1_000_000);
        if (outcome instanceof MoldOutcome.Rejected rejected) {
            throw new IllegalStateException(rejected.reason().toString());
        }
        return stages;
    }

    private static List<MemoryPoolMXBean> heapPools() {
        return ManagementFactory.getMemoryPoolMXBeans().stream().filter(p -> p.getType() == MemoryType.HEAP).toList();
    }

    private static void resetPeaks() {
        heapPools().forEach(MemoryPoolMXBean::resetPeakUsage);
    }

    private static long peakMib() {
        return Arrays.stream(heapPools().stream().mapToLong(p -> p.getPeakUsage().getUsed()).toArray()).sum() >> 20;
    }
}
