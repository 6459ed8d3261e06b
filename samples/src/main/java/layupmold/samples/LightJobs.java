package layupmold.samples;

import com.sun.management.OperatingSystemMXBean;
import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintStream;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
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
 * What the service costs beyond its geometry: posts many light parts at once, and makes molds of a sample of them by
 * calling the library in a loop, half of it before and half after, since machines drift. Prints time and processor time
 * a mold of both, and how long each post took while the workers were busy. Arguments: service jar, output folder, number
 * of parts.
 */
public final class LightJobs {

    private static final int WARM_UPS = 20;
    /** One part in so many is made in each of the two loops. */
    private static final int SAMPLE = 8;
    private static final OperatingSystemMXBean MACHINE =
            (OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean();

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

    /** @param eachS wall time, @param cpuS processor time, both a mold */
    private record Cost(double eachS, double cpuS) {
    }

    private static void run(Path jar, Path output, int count, PrintStream out) throws IOException, InterruptedException {
        List<Path> warmUps = write(output.resolve("warm-ups"), WARM_UPS, 40);
        List<Path> parts = write(output.resolve("parts"), count, 60);
        loop(warmUps);
        Cost before = loop(every(SAMPLE, 0, parts));
        tell(out, "library in a loop, before", before);
        double[] postMs = new double[count];
        List<MoldResource> ends;
        Cost service;
        try (ServiceProcess node = ServiceProcess.start(jar, output.resolve("service-" + ProcessHandle.current().pid()))) {
            MoldClient client = new MoldClient(node.root());
            awaitAll(client, post(client, warmUps, new double[WARM_UPS]));
            Duration cpu = node.cpu();
            ends = awaitAll(client, post(client, parts, postMs));
            service = new Cost(seconds(ends) / count, node.cpu().minus(cpu).toNanos() / 1e9 / count);
        }
        tell(out, "service, " + count + " at once", service);
        Cost after = loop(every(SAMPLE, SAMPLE / 2, parts));
        tell(out, "library in a loop, after", after);
        Cost loop = new Cost((before.eachS() + after.eachS()) / 2, (before.cpuS() + after.cpuS()) / 2);
        out.printf(Locale.ROOT, "%d of %d molds made, throughput %+.1f %% against the loop (bar: -15 %%), processor time "
                        + "%+.1f %%%n", done(ends), count, 100 * (loop.eachS() / service.eachS() - 1),
                100 * (service.cpuS() / loop.cpuS() - 1));
        Arrays.sort(postMs);
        out.printf(Locale.ROOT, "posts while it worked: median %.0f ms, 99th percentile %.0f ms (bar: 100 ms), longest %.0f ms%n",
                postMs[count / 2], postMs[(int) Math.ceil(0.99 * count) - 1], postMs[count - 1]);
        if (done(ends) != count) {
            throw new DemoFailure(count - done(ends) + " parts have no mold");
        }
    }

    private static void tell(PrintStream out, String what, Cost cost) {
        out.printf(Locale.ROOT, "%s: %.2f s a mold, %.2f s of processor time%n", what, cost.eachS(), cost.cpuS());
    }

    /** Every n-th part from the given one on, so that samples have the sizes of all. */
    private static List<Path> every(int n, int from, List<Path> parts) {
        return IntStream.range(0, parts.size()).filter(i -> i % n == from % Math.min(n, parts.size())).mapToObj(parts::get)
                .toList();
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

    private static Cost loop(List<Path> parts) throws IOException {
        long start = System.nanoTime();
        long cpu = MACHINE.getProcessCpuTime();
        for (Path part : parts) {
            MoldOutcome outcome = MoldPipeline.make(MeshReader.read(Files.readAllBytes(part), part.toString(),
                    MeshLimits.defaults()), Recipe.defaults(), Progress.SILENT);
            if (outcome instanceof MoldOutcome.Rejected rejected) {
                throw new DemoFailure(part + ": " + rejected.reason().message());
            }
        }
        return new Cost((System.nanoTime() - start) / 1e9 / parts.size(),
                (MACHINE.getProcessCpuTime() - cpu) / 1e9 / parts.size());
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
