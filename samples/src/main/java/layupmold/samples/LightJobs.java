package layupmold.samples;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import layupmold.api.mold.MoldResource;
import layupmold.api.mold.MoldStatus;
import layupmold.api.recipe.MoldRecipe;
import layupmold.geometry.MoldOutcome;
import layupmold.geometry.MoldPipeline;
import layupmold.geometry.Progress;
import layupmold.geometry.mesh.io.MeshLimits;
import layupmold.geometry.mesh.io.MeshReader;
import layupmold.geometry.mesh.io.StlWriter;
import layupmold.geometry.recipe.Recipe;
import layupmold.samples.client.MoldClient;
import layupmold.samples.client.ServiceProblem;

/**
 * What the service costs beyond its geometry: makes molds of many light parts first by calling the library in a loop, then
 * by posting all of them at once, and prints both times and how long each post took while the workers were busy. Arguments:
 * service jar, output folder, number of parts.
 */
public final class LightJobs {

    private static final int WARM_UPS = 4;

    private LightJobs() {
    }

    public static void main(String[] arguments) throws InterruptedException {
        if (arguments.length != 3) {
            System.err.println("usage: LightJobs <service jar> <output folder> <number of parts>");
            System.exit(2);
        }
        try {
            run(Path.of(arguments[0]), Path.of(arguments[1]), Integer.parseInt(arguments[2]), System.out);
        } catch (IOException | ServiceProblem | DemoFailure e) {
            System.err.println("The run failed: " + e.getMessage());
            System.exit(1);
        }
    }

    private static void run(Path jar, Path output, int count, PrintStream out) throws IOException, InterruptedException {
        List<Path> warmUps = write(output.resolve("warm-ups"), WARM_UPS, 40);
        List<Path> parts = write(output.resolve("parts"), count, 60);
        loop(warmUps);
        double loopS = loop(parts);
        out.printf(Locale.ROOT, "library in a loop: %d molds in %.1f s, %.2f s each%n", count, loopS, loopS / count);
        try (ServiceProcess service = ServiceProcess.start(jar, output.resolve("service-" + ProcessHandle.current().pid()))) {
            MoldClient client = new MoldClient(service.root());
            awaitAll(client, post(client, warmUps, new double[WARM_UPS]));
            double[] postMs = new double[count];
            List<MoldResource> ends = awaitAll(client, post(client, parts, postMs));
            double serviceS = seconds(ends);
            out.printf(Locale.ROOT, "service: %d molds in %.1f s, throughput %+.1f %% against the loop (bar: -15 %%)%n",
                    done(ends), serviceS, 100 * (loopS / serviceS - 1));
            Arrays.sort(postMs);
            out.printf(Locale.ROOT, "posts while it worked: median %.0f ms, 99th percentile %.0f ms (bar: 100 ms), "
                    + "longest %.0f ms%n", postMs[count / 2], postMs[(int) Math.ceil(0.99 * count) - 1], postMs[count - 1]);
            if (done(ends) != count) {
                throw new DemoFailure(count - done(ends) + " parts have no mold");
            }
        }
    }

    private static List<Path> write(Path folder, int count, double radiusMm) throws IOException {
        Files.createDirectories(folder);
        List<Path> files = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            Path file = folder.resolve("dome-" + i + ".stl");
            try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(file))) {
                StlWriter.write(LightDome.of(radiusMm + 0.2 * i), "dome, mm", out);
            }
            files.add(file);
        }
        return files;
    }

    private static double loop(List<Path> parts) throws IOException {
        long start = System.nanoTime();
        for (Path part : parts) {
            MoldOutcome outcome = MoldPipeline.make(MeshReader.read(Files.readAllBytes(part), part.toString(),
                    MeshLimits.defaults()), Recipe.defaults(), Progress.SILENT);
            if (outcome instanceof MoldOutcome.Rejected rejected) {
                throw new DemoFailure(part + ": " + rejected.reason().message());
            }
        }
        return (System.nanoTime() - start) / 1e9;
    }

    private static List<MoldResource> post(MoldClient client, List<Path> parts, double[] tookMs)
            throws IOException, InterruptedException {
        List<MoldResource> posted = new ArrayList<>();
        for (int i = 0; i < parts.size(); i++) {
            long start = System.nanoTime();
            posted.add(client.post(parts.get(i), MoldRecipe.defaults(), null));
            tookMs[i] = (System.nanoTime() - start) / 1e6;
        }
        return posted;
    }

    private static List<MoldResource> awaitAll(MoldClient client, List<MoldResource> posted)
            throws IOException, InterruptedException {
        List<MoldResource> ends = new ArrayList<>();
        for (MoldResource mold : posted) {
            ends.add(client.await(mold, now -> { }));
        }
        return ends;
    }

    /** From the first part's acceptance to the last mold's end, by the service's clock. */
    private static double seconds(List<MoldResource> molds) {
        Instant first = molds.stream().map(MoldResource::createdAt).min(Instant::compareTo).orElseThrow();
        Instant last = molds.stream().map(MoldResource::finishedAt).max(Instant::compareTo).orElseThrow();
        return Duration.between(first, last).toNanos() / 1e9;
    }

    private static int done(List<MoldResource> molds) {
        return (int) molds.stream().filter(mold -> mold.status() == MoldStatus.DONE).count();
    }
}
