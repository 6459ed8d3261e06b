package layupmold.service.kit;

import com.sun.management.OperatingSystemMXBean;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Stream;
import layupmold.geometry.MoldOutcome;
import layupmold.geometry.MoldPipeline;
import layupmold.geometry.RigidTransform;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.drape.Drape;
import layupmold.geometry.drape.DrapeFigures;
import layupmold.geometry.drape.DrapeSpec;
import layupmold.geometry.drape.DrapedPly;
import layupmold.geometry.drape.ToolSheet;
import layupmold.geometry.face.FaceExtraction;
import layupmold.geometry.face.FaceResult;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.kit.KitSpec;
import layupmold.geometry.kit.LayupKit;
import layupmold.geometry.kit.PlyTemplate;
import layupmold.geometry.kit.ShoppingList;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.MeshLimits;
import layupmold.geometry.mesh.io.MeshReader;
import layupmold.geometry.mesh.io.PartFile;
import layupmold.geometry.mesh.prepare.CleanPart;
import layupmold.geometry.mesh.prepare.PartCleaner;
import layupmold.geometry.opening.CappedFace;
import layupmold.geometry.opening.OpeningCapper;
import layupmold.geometry.pull.PullSearch;
import layupmold.geometry.recipe.Ply;
import layupmold.geometry.recipe.Recipe;
import org.joml.Matrix4d;
import org.joml.Quaterniond;
import org.joml.Vector3d;
import org.locationtech.jts.geom.Coordinate;

/**
 * Holds the kit against its bars on the costume and prints the figures: one ply on 200 000 triangles in 2 s, the
 * templates of the whole suit in 30 s, flattened against draped area within 1 %, templates in the PDF right to 0.1 mm.
 * Ends with status 1 if a bar is missed. Arguments: folder with the costume's STL files, folder for the prints.
 */
public final class KitBars {

    private boolean held = true;

    private KitBars() {
    }

    public static void main(String[] arguments) throws IOException {
        KitBars bars = new KitBars();
        bars.largeTool();
        bars.suit(Path.of(arguments[0]), Files.createDirectories(Path.of(arguments[1])));
        if (!bars.held) {
            System.exit(1);
        }
    }

    private void bar(String what, double figure, double most, String unit) {
        held &= figure <= most;
        System.out.printf(Locale.ROOT, "%-58s %9.3f %s (bar %.3f)%s%n", what, figure, unit, most,
                figure <= most ? "" : "  MISSED");
    }

    private void largeTool() {
        int cells = 320;
        double[] xyz = new double[3 * (cells + 1) * (cells + 1)];
        int[] triangles = new int[6 * cells * cells];
        int n = 0;
        for (int i = 0; i <= cells; i++) {
            for (int j = 0; j <= cells; j++) {
                int v = i * (cells + 1) + j;
                double x = 300.0 * j / cells - 150;
                double y = 300.0 * i / cells - 150;
                xyz[3 * v] = x;
                xyz[3 * v + 1] = y;
                xyz[3 * v + 2] = 30 * Math.cos(x / 60) * Math.cos(y / 80) + 0.4 * Math.abs(Math.sin(x / 6 + y / 9));
                if (i < cells && j < cells) {
                    for (int corner : new int[] {v, v + 1, v + cells + 2, v, v + cells + 2, v + cells + 1}) {
                        triangles[n++] = corner;
                    }
                }
            }
        }
        TriangleMesh tool = new TriangleMesh(xyz, triangles);
        OperatingSystemMXBean machine = ManagementFactory.getPlatformMXBean(OperatingSystemMXBean.class);
        double best = Double.POSITIVE_INFINITY;
        double processor = Double.POSITIVE_INFINITY;
        for (int run = 0; run < 8; run++) {
            long from = System.nanoTime();
            long busy = machine.getProcessCpuTime();
            Drape.ply(ToolSheet.of(tool), DrapeSpec.of(Ply.carbonTwill(0), 0.3), RigidTransform.identity());
            best = Math.min(best, (System.nanoTime() - from) / 1e9);
            processor = Math.min(processor, (machine.getProcessCpuTime() - busy) / 1e9);
        }
        System.out.printf(Locale.ROOT, "%.1f programs share this machine's %d cores; of the next figure %.3f s are work%n",
                machine.getSystemLoadAverage(), machine.getAvailableProcessors(), processor);
        bar("one ply on a tool of " + tool.triangleCount() + " triangles, warm", best, 2, "s");
    }

    private void suit(Path folder, Path prints) throws IOException {
        OperatingSystemMXBean machine = ManagementFactory.getPlatformMXBean(OperatingSystemMXBean.class);
        List<LayupKit> kits = new ArrayList<>();
        double seconds = 0;
        long work = 0;
        try (Stream<Path> files = Files.list(folder)) {
            for (Path stl : files.filter(f -> f.toString().endsWith(".stl")).sorted().toList()) {
                String name = stl.getFileName().toString().replace(".stl", "");
                ToolSheet sheet;
                try {
                    sheet = tool(name, Files.readAllBytes(stl));
                } catch (Rejection rejection) {
                    held = false;
                    System.out.println(name + ": no surface to lay cloth on: " + rejection.getMessage() + "  MISSED");
                    continue;
                }
                long from = System.nanoTime();
                long busy = machine.getProcessCpuTime();
                LayupKit kit = LayupKit.of(name, sheet, Recipe.defaults().layup(), KitSpec.defaults(),
                        RigidTransform.identity());
                seconds += (System.nanoTime() - from) / 1e9;
                work += machine.getProcessCpuTime() - busy;
                kits.add(kit);
                for (int ply = 0; ply < kit.drapes().size(); ply++) {
                    areas(name + ", ply " + (ply + 1), kit.drapes().get(ply));
                }
            }
        }
        long from = System.nanoTime();
        long busy = machine.getProcessCpuTime();
        byte[] pdf = KitPrints.templates(kits, KitSpec.Paper.A4).orElseThrow();
        Map<String, byte[]> layouts = KitPrints.ofSuit(ShoppingList.of(kits, KitSpec.defaults()));
        seconds += (System.nanoTime() - from) / 1e9;
        work += machine.getProcessCpuTime() - busy;
        System.out.printf(Locale.ROOT, "%.1f programs share this machine's %d cores; of the next figure %.1f s are work%n",
                machine.getSystemLoadAverage(), machine.getAvailableProcessors(), work / 1e9);
        bar("templates of " + kits.size() + " parts, draped, nested on one roll, drawn", seconds, 30, "s");
        bar("templates against the PDF read back", worstInPdf(kits, pdf), 0.1, "mm");
        Files.write(prints.resolve("templates.pdf"), pdf);
        for (Map.Entry<String, byte[]> file : layouts.entrySet()) {
            Files.write(prints.resolve(file.getKey()), file.getValue());
        }
        Files.write(prints.resolve("work-card.pdf"),
                WorkCard.of(kits.get(0), Recipe.defaults(), KitSpec.defaults()).pdf());
        System.out.println("prints in " + prints);
    }

    private void areas(String name, DrapedPly ply) {
        DrapeFigures f = ply.figures();
        System.out.printf(Locale.ROOT, "%s: most shear %.0f deg, beyond locking %.1f cm2, bridged %.1f cm2, not reached "
                + "%.1f cm2, %d darts, split %s%n", name, f.maxShearDeg(), f.lockedMm2() / 100, f.bridgedMm2() / 100,
                f.uncoveredMm2() / 100, ply.darts().size(), ply.split() == null ? "none" : String.format(Locale.ROOT,
                        "in two with %.1f %% amiss", 100 * ply.split().amissShare()));
        bar(name + ": draped against tool area", 100 * Math.abs(f.areaImbalance()), 1, "%");
    }

    /** Every outline is found on the pages as drawn, and every corner measured from the outline's first. */
    private static double worstInPdf(List<LayupKit> kits, byte[] pdf) {
        List<DrawnPdf.Line> lines = DrawnPdf.read(pdf).stream().flatMap(List::stream).toList();
        double worst = 0;
        for (LayupKit kit : kits) {
            for (PlyTemplate t : kit.templates()) {
                worst = Math.max(worst, nearest(lines, t.pattern().outline().getExteriorRing().getCoordinates()));
            }
        }
        return worst;
    }

    private static double nearest(List<DrawnPdf.Line> lines, Coordinate[] outline) {
        double best = Double.POSITIVE_INFINITY;
        for (DrawnPdf.Line line : lines) {
            double[] xy = line.xy();
            if (xy.length != 2 * outline.length) {
                continue;
            }
            double worst = 0;
            for (int k = 1; k < outline.length; k++) {
                worst = Math.max(worst, Math.hypot(xy[2 * k] - xy[0] - (outline[k].x - outline[0].x),
                        xy[2 * k + 1] - xy[1] - (outline[k].y - outline[0].y)));
            }
            best = Math.min(best, worst);
        }
        return best;
    }

    /** The finished mold's surface; the capped face itself where no mold is made. */
    private static ToolSheet tool(String name, byte[] stl) {
        PartFile file = MeshReader.read(stl, name + ".stl", MeshLimits.defaults());
        Recipe recipe = Recipe.defaults();
        MoldOutcome outcome = MoldPipeline.make(file, recipe, (stage, share) -> {
        });
        if (outcome instanceof MoldOutcome.Mold mold) {
            return ToolSheet.of(mold);
        }
        System.out.println(name + ": no mold (" + ((MoldOutcome.Rejected) outcome).reason().code()
                + "), cloth laid on the capped face");
        CleanPart part = PartCleaner.clean(file, recipe);
        TriangleBvh bvh = TriangleBvh.of(part.mesh());
        Vector3d pull = PullSearch.find(part.mesh(), part.topology(), bvh, recipe).direction();
        FaceResult face = FaceExtraction.extract(part.mesh(), part.topology(), bvh, pull, recipe.keep());
        RigidTransform upright = new RigidTransform(
                new Matrix4d().rotate(new Quaterniond().rotationTo(pull, new Vector3d(0, 0, 1))));
        CappedFace capped = OpeningCapper.cap(upright.apply(face.mesh()), face.topology(), face.openings(),
                face.perimeter());
        boolean[] cap = new boolean[capped.mesh().triangleCount()];
        double up = 0;
        for (int t = 0; t < cap.length; t++) {
            cap[t] = capped.capOfTriangle()[t] >= 0;
            up += capped.mesh().areaNormal(t).z;
        }
        return ToolSheet.of(up < 0 ? capped.mesh().flipped() : capped.mesh(), cap);
    }
}
