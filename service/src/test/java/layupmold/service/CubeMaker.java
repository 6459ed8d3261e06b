package layupmold.service;

import java.util.Arrays;
import java.util.Map;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.locks.LockSupport;
import layupmold.geometry.MoldOutcome;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.Progress;
import layupmold.geometry.RigidTransform;
import layupmold.geometry.Workpiece;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.inspect.CopiedSurface;
import layupmold.geometry.inspect.Inspection;
import layupmold.geometry.inspect.MeasuredSolid;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.MeshLimits;
import layupmold.geometry.mesh.io.MeshReader;
import layupmold.geometry.parallel.Parallel;
import layupmold.geometry.recipe.Recipe;
import layupmold.service.making.MoldMaker;

/**
 * Stands in for the pipeline where the service around it is tested: reads the part for real and hands out a cube. The
 * recipe's title steers it: "reject", "crash", "die" (out of memory), "slow N" for N stages of 100 ms, or
 * "deaf N" for one stage of that length.
 */
public final class CubeMaker implements MoldMaker {

    private static final int[] CUBE = {
        0, 2, 1, 0, 3, 2, 4, 5, 6, 4, 6, 7, 0, 1, 5, 0, 5, 4, 1, 2, 6, 1, 6, 5, 2, 3, 7, 2, 7, 6, 3, 0, 4, 3, 4, 7};

    /** How often each title was worked on to the end. */
    public final Map<String, AtomicInteger> finished = new ConcurrentHashMap<>();

    /** How often each title was begun. */
    public final Map<String, AtomicInteger> begun = new ConcurrentHashMap<>();

    @Override
    public MoldOutcome make(byte[] bytes, String fileName, Recipe recipe, Progress progress) {
        MeshReader.read(bytes, fileName, MeshLimits.defaults());
        String title = String.valueOf(recipe.title());
        begun.computeIfAbsent(title, key -> new AtomicInteger()).incrementAndGet();
        progress.at("mesh", 0);
        act(title, progress);
        progress.at("body", 0.9);
        finished.computeIfAbsent(title, key -> new AtomicInteger()).incrementAndGet();
        return cube(recipe);
    }

    private static void act(String title, Progress progress) {
        if (title.startsWith("reject")) {
            throw new Rejection(Finding.error("face", "wall-not-found", "No wall can be told apart.")
                    .at(new Place(1, 2, 3, 0)).advising("Give a seed point."));
        }
        if (title.startsWith("crash")) {
            throw new IllegalStateException("a mistake in the maker");
        }
        if (title.startsWith("die")) {
            throw new OutOfMemoryError("as if");
        }
        if (title.startsWith("deaf")) {
            long end = System.nanoTime() + 100_000_000L * Integer.parseInt(title.split(" ")[1]);
            while (System.nanoTime() < end) {
                Parallel.forRanges(1000, 10, (chunk, from, to) -> LockSupport.parkNanos(100_000));
            }
        }
        if (title.startsWith("slow")) {
            int stages = Integer.parseInt(title.split(" ")[1]);
            for (int i = 0; i < stages; i++) {
                progress.at("stage-" + i, 0.1 + 0.8 * i / stages);
                sleep();
            }
        }
    }

    private static void sleep() {
        try {
            Thread.sleep(100);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new CancellationException();
        }
    }

    private static MoldOutcome.Mold cube(Recipe recipe) {
        double a = 10 + recipe.releaseMm();
        TriangleMesh solid = new TriangleMesh(new double[] {
            -a, -a, 0, a, -a, 0, a, a, 0, -a, a, 0, -a, -a, a, a, -a, a, a, a, a, -a, a, a}, CUBE);
        byte[] regions = new byte[12];
        Arrays.fill(regions, (byte) MoldRegion.SIDE.ordinal());
        return new MoldOutcome.Mold(solid, regions, RigidTransform.identity(), SampleReport.filled(),
                Measured.of(solid, regions), new Workpiece(solid, solid));
    }

    /** One cube is measured for all: it takes longer than the rest of the work. */
    private static final class Measured {
        private static Inspection inspection;

        static synchronized Inspection of(TriangleMesh solid, byte[] regions) {
            if (inspection == null) {
                inspection = Inspection.inspect(
                        MeasuredSolid.of(solid, regions), CopiedSurface.of(solid), 0, Recipe.defaults());
            }
            return inspection;
        }
    }
}
