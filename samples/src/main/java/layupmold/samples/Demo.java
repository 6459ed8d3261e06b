package layupmold.samples;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import layupmold.api.ContractJson;
import layupmold.api.batch.SuitManifest;
import layupmold.api.batch.SuitPart;
import layupmold.api.mold.MoldResource;
import layupmold.api.mold.MoldStatus;
import layupmold.api.recipe.MoldRecipe;
import layupmold.api.report.MoldReportDocument;
import layupmold.samples.client.MoldClient;
import layupmold.samples.client.RecipeOverrides;
import layupmold.samples.client.ServiceProblem;

/**
 * The whole way once: starts the packaged service, posts parts of the heron, leaves mold and report of each in a folder,
 * and stops the service. Arguments: service jar, heron folder, output folder, and "mask" (a part's name), or "all".
 */
public final class Demo {

    private final MoldClient client;
    private final Path heron;
    private final Path output;
    private final MoldRecipe defaults;
    private final PrintStream out;
    private final long start = System.nanoTime();

    private Demo(MoldClient client, Path heron, Path output, MoldRecipe defaults, PrintStream out) {
        this.client = client;
        this.heron = heron;
        this.output = output;
        this.defaults = defaults;
        this.out = out;
    }

    public static void main(String[] arguments) throws InterruptedException {
        if (arguments.length != 4) {
            System.err.println("usage: Demo <service jar> <heron folder> <output folder> <part or all>");
            System.exit(2);
        }
        try {
            run(Path.of(arguments[0]), Path.of(arguments[1]), Path.of(arguments[2]), arguments[3], System.out);
        } catch (IOException | ServiceProblem | DemoFailure e) {
            System.err.println("The demo failed: " + e.getMessage());
            System.exit(1);
        }
    }

    static void run(Path jar, Path heron, Path output, String wanted, PrintStream out)
            throws IOException, InterruptedException {
        if (!Files.isRegularFile(jar)) {
            throw new DemoFailure("there is no service jar at " + jar + "; build the whole project first");
        }
        SuitManifest suit = ContractJson.read(Files.readAllBytes(heron.resolve("suit.json")), SuitManifest.class);
        List<SuitPart> parts = suit.parts().stream()
                .filter(part -> wanted.equals("all") || part.name().equals(wanted)).toList();
        if (parts.isEmpty()) {
            throw new DemoFailure("the suit has no part named " + wanted + "; it has "
                    + suit.parts().stream().map(SuitPart::name).toList());
        }
        Path workplace = output.resolve("service-" + ProcessHandle.current().pid());
        out.println("Starting the service ...");
        try (ServiceProcess service = ServiceProcess.start(jar, workplace)) {
            Demo demo = new Demo(new MoldClient(service.root()), heron, output, suit.defaults(), out);
            out.println("The service is ready at " + service.root() + ", its log is " + service.log());
            demo.makeAll(parts);
        }
        out.println("The service has stopped.");
    }

    private void makeAll(List<SuitPart> parts) throws IOException, InterruptedException {
        List<String> without = new ArrayList<>();
        for (SuitPart part : parts) {
            if (!make(part)) {
                without.add(part.name());
            }
        }
        if (!without.isEmpty()) {
            throw new DemoFailure("no mold could be made of " + String.join(", ", without) + "; the reasons are above");
        }
    }

    private boolean make(SuitPart part) throws IOException, InterruptedException {
        Path mesh = heron.resolve(part.file());
        say(part, "posting " + mesh + ", " + Files.size(mesh) / 1024 + " kB");
        MoldRecipe recipe = RecipeOverrides.applied(defaults, part.recipe());
        MoldResource posted = client.post(mesh, recipe == null ? MoldRecipe.defaults() : recipe, null);
        MoldResource end = client.await(posted, now -> say(part, progress(now)));
        if (end.status() != MoldStatus.DONE) {
            out.println(end.problem() == null ? "no reason given" : end.problem().detail());
            return false;
        }
        Path folder = output.resolve(part.name());
        client.download(end.links().stl(), folder.resolve("mold.stl"));
        client.download(end.links().threeMf(), folder.resolve("mold.3mf"));
        client.download(end.links().report(), folder.resolve("report.json"));
        summarise(part, client.report(end), folder);
        return true;
    }

    private static String progress(MoldResource now) {
        String stage = now.stage() == null ? "" : ", " + now.stage();
        return now.status().name().toLowerCase(Locale.ROOT) + stage + ", " + now.percent() + " %";
    }

    private void say(SuitPart part, String what) {
        out.printf(Locale.ROOT, "%6.1f s  %s: %s%n", (System.nanoTime() - start) / 1e9, part.name(), what);
    }

    private void summarise(SuitPart part, MoldReportDocument report, Path folder) {
        say(part, "made " + folder.resolve("mold.stl") + ", mold.3mf and report.json");
        out.printf(Locale.ROOT, "          part   %d triangles, %s, %d openings, face %.0f cm²%n",
                report.part().triangles(), report.part().kind(), report.face().openings(),
                report.face().areaMm2() / 100);
        out.printf(Locale.ROOT, "          offset %+.2f mm: %s%n", report.offset().signedMm(), report.offset().words());
        List<Double> size = report.body().sizeMm();
        out.printf(Locale.ROOT, "          mold   %.0f × %.0f × %.0f mm, %.0f cm³ solid, %d triangles, all checks passed%n",
                size.get(0), size.get(1), size.get(2), report.body().volumeMm3() / 1000, report.body().triangles());
        report.findings().stream().filter(finding -> !finding.severity().name().equals("INFO"))
                .forEach(finding -> out.println("          note   " + finding.message()));
    }
}
