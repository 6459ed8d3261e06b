package layupmold.samples;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import layupmold.api.ContractJson;
import layupmold.api.batch.BatchResource;
import layupmold.api.batch.BatchStatus;
import layupmold.api.batch.SuitManifest;
import layupmold.api.batch.SuitPart;
import layupmold.api.batch.SuitSummary;
import layupmold.api.mold.MoldStatus;
import layupmold.api.recipe.MoldRecipe;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.StlWriter;
import layupmold.samples.client.MoldClient;
import layupmold.samples.client.ServiceProblem;
import layupmold.samples.client.SuitFolder;
import layupmold.samples.heron.HeronPart;

/**
 * A wardrobe of fifty parts as one suit: the heron's left forearm in 25 sizes, each with its right-hand twin as a mesh of
 * its own. Starts the packaged service, posts the suit, shows its progress and prints the figures. Arguments: service
 * jar, output folder.
 */
public final class FiftyParts {

    private static final int SIZES = 25;

    private FiftyParts() {
    }

    public static void main(String[] arguments) throws InterruptedException {
        if (arguments.length != 2) {
            System.err.println("usage: FiftyParts <service jar> <output folder>");
            System.exit(2);
        }
        try {
            run(Path.of(arguments[0]), Path.of(arguments[1]), System.out);
        } catch (IOException | ServiceProblem | DemoFailure e) {
            System.err.println("The run failed: " + e.getMessage());
            System.exit(1);
        }
    }

    private static void run(Path jar, Path output, PrintStream out) throws IOException, InterruptedException {
        Path suit = output.resolve("suit");
        write(suit);
        Path zip = output.resolve("suit.zip");
        SuitFolder.zip(suit, zip);
        Path workplace = output.resolve("service-" + ProcessHandle.current().pid());
        try (ServiceProcess service = ServiceProcess.start(jar, workplace)) {
            MoldClient client = new MoldClient(service.root());
            long start = System.nanoTime();
            BatchResource posted = client.postSuit(zip, null);
            out.printf(Locale.ROOT, "%6.1f s  posted %d parts, %d MB%n", seconds(start), posted.parts().size(),
                    Files.size(zip) >> 20);
            BatchResource end = client.awaitSuit(posted, now -> out.printf(Locale.ROOT, "%6.1f s  %s%n", seconds(start),
                    progress(now)));
            double took = seconds(start);
            client.download(end.links().bundle(), output.resolve("bundle.zip"));
            long mirrored = end.parts().stream().filter(part -> part.likeness() != null).count();
            SuitSummary summary = client.summary(end);
            out.printf(Locale.ROOT, "fifty parts: %d molds in %.1f s, %d of them mirrored, bundle %d MB; "
                            + "%.0f g filament, %.0f h of printing, %.0f g resin%n", done(end), took, mirrored,
                    Files.size(output.resolve("bundle.zip")) >> 20,
                    summary.filament().stream().mapToDouble(need -> need.massG()).sum(), summary.printHours(),
                    summary.resinG());
            if (end.status() != BatchStatus.DONE) {
                throw new DemoFailure(end.parts().size() - done(end) + " parts have no mold");
            }
        }
    }

    private static void write(Path folder) throws IOException {
        Files.createDirectories(folder);
        TriangleMesh left = HeronPart.FOREARM_LEFT.mesh();
        TriangleMesh right = HeronPart.FOREARM_RIGHT.mesh();
        List<SuitPart> parts = new ArrayList<>();
        for (int size = 0; size < SIZES; size++) {
            double scale = 0.8 + 0.4 * size / (SIZES - 1);
            String name = String.format(Locale.ROOT, "forearm-%02d", size + 1);
            write(left, scale, folder.resolve(name + "-left.stl"));
            write(right, scale, folder.resolve(name + "-right.stl"));
            parts.add(new SuitPart(name + "-left", name + "-left.stl", null, null, null));
            parts.add(new SuitPart(name + "-right", name + "-right.stl", null, name + "-left", null));
        }
        Files.write(folder.resolve("suit.json"),
                ContractJson.write(new SuitManifest("Forearms in 25 sizes", MoldRecipe.defaults(), parts)));
    }

    private static void write(TriangleMesh mesh, double scale, Path file) throws IOException {
        double[] xyz = mesh.xyz().clone();
        for (int i = 0; i < xyz.length; i++) {
            xyz[i] *= scale;
        }
        try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(file))) {
            StlWriter.write(new TriangleMesh(xyz, mesh.triangles()), "forearm, mm", out);
        }
    }

    private static String progress(BatchResource now) {
        return String.format(Locale.ROOT, "%s, %d of %d molds, %d %%", now.status().name().toLowerCase(Locale.ROOT),
                done(now), now.parts().size(), now.percent());
    }

    private static long done(BatchResource suit) {
        return suit.parts().stream().filter(part -> part.status() == MoldStatus.DONE).count();
    }

    private static double seconds(long start) {
        return (System.nanoTime() - start) / 1e9;
    }
}
