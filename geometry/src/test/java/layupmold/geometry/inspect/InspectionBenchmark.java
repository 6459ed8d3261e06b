package layupmold.geometry.inspect;

import com.sun.management.OperatingSystemMXBean;
import java.lang.management.ManagementFactory;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import layupmold.geometry.MoldOutcome;
import layupmold.geometry.MoldPipeline;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.Progress;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.PartFile;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.render.InspectionMaps;
import layupmold.geometry.render.MoldPictures;
import layupmold.geometry.render.Picture;
import layupmold.geometry.shapes.Pick;
import layupmold.geometry.shapes.Revolved;
import layupmold.geometry.testparts.ClosedForms;
import layupmold.geometry.testparts.TestPart;
import org.joml.Vector3d;

/**
 * Not a test: times the inspection of two molds of about a million triangles and the pictures of one of 200,000. Prints
 * medians of wall time and of processor time; on a busy machine only the latter tells, and half of it is the least that
 * two cores can need. The first mold is made by the pipeline; the second, a bowl past its equator whose rippled tool
 * surface holds nearly all triangles, is the costlier, since it is locked and so is searched for other pulls and splits.
 * Arguments: how many runs, default 7, and of about how many triangles, default a million.
 */
public final class InspectionBenchmark {

    private static final double R = 90;
    private static final double CENTRE_Z = 100;
    private static final double OFFSET = 0.65;
    private static final OperatingSystemMXBean SYSTEM =
            (OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean();

    private InspectionBenchmark() {
    }

    public static void main(String[] args) {
        int runs = args.length > 0 ? Integer.parseInt(args[0]) : 7;
        int triangles = args.length > 1 ? Integer.parseInt(args[1]) : 1_000_000;
        inspection("made by the pipeline", runs, Mold.made(triangles));
        inspection("bowl past its equator", runs, Mold.of(triangles));
        for (Picture picture : pictures(Mold.of(200_000))) {
            time("picture " + picture.name(), runs, picture::toPng);
        }
    }

    private static void inspection(String name, int runs, Mold mold) {
        System.out.printf("%s: %d triangles, %d in the face%n", name, mold.mesh.triangleCount(), mold.face.triangleCount());
        Recipe recipe = Recipe.defaults();
        MeasuredSolid solid = MeasuredSolid.of(mold.mesh, mold.regions);
        WallThickness wall = WallThickness.measure(solid, 1.2);
        time("hierarchy and topology", runs, () -> MeasuredSolid.of(mold.mesh, mold.regions));
        time("wall thickness", runs, () -> WallThickness.measure(solid, 1.2));
        time("demold", runs, () -> Demold.measure(solid, recipe.inspect(), recipe.tool()));
        time("deviation", runs, () -> ToolDeviation.measure(solid, CopiedSurface.of(mold.face), mold.offsetMm));
        time("fabric", runs, () -> FabricFit.measure(solid, recipe));
        time("print", runs, () -> PrintFit.measure(solid, wall, recipe));
        time("all of the inspection", runs, () -> Inspection.inspect(
                MeasuredSolid.of(mold.mesh, mold.regions), CopiedSurface.of(mold.face), mold.offsetMm, recipe));
    }

    private static List<Picture> pictures(Mold mold) {
        Recipe recipe = Recipe.defaults();
        MeasuredSolid solid = MeasuredSolid.of(mold.mesh, mold.regions);
        Inspection inspection = Inspection.inspect(solid, CopiedSurface.of(mold.face), mold.offsetMm, recipe);
        return MoldPictures.of(new MoldPictures.Subject(mold.mesh, mold.face, mold.mesh, mold.regions,
                InspectionMaps.of(inspection, recipe.inspect().leastDraftDeg())));
    }

    private static void time(String what, int runs, Runnable work) {
        List<Double> wall = new ArrayList<>();
        List<Double> processor = new ArrayList<>();
        for (int run = -2; run < runs; run++) {
            long start = System.nanoTime();
            long used = SYSTEM.getProcessCpuTime();
            work.run();
            if (run >= 0) {
                wall.add((System.nanoTime() - start) * 1e-9);
                processor.add((SYSTEM.getProcessCpuTime() - used) * 1e-9);
            }
        }
        wall.sort(null);
        processor.sort(null);
        System.out.printf(Locale.ROOT, "%-24s %6.2f s wall, %6.2f s processor%n", what, wall.get(runs / 2),
                processor.get(runs / 2));
    }

    private record Mold(TriangleMesh mesh, byte[] regions, TriangleMesh face, double offsetMm) {

        /** Of a spherical cap shell with about twice as many triangles, since back wall and rim go. */
        static Mold made(int triangles) {
            TestPart part = ClosedForms.sphericalCap(120, 75, 3, (int) Math.round(Math.sqrt(2 * triangles / 0.83)));
            MoldOutcome outcome = MoldPipeline.make(new PartFile(part.mesh(), "stl-binary", null, List.of()),
                    Recipe.defaults().withPull(part.pull()), Progress.SILENT);
            if (outcome instanceof MoldOutcome.Mold mold) {
                return new Mold(mold.solid(), mold.regions(), mold.workpiece().face(), mold.report().offset().signedMm());
            }
            throw new IllegalStateException(outcome.toString());
        }

        static Mold of(int triangles) {
            int steps = (int) Math.round(Math.sqrt(triangles / 4.0));
            TriangleMesh mesh = bowl(R, steps, 2 * steps);
            TriangleMesh face = Pick.triangles(bowl(R - OFFSET, steps, 2 * steps), Mold::isTool).flipped();
            return new Mold(mesh, Pick.regions(mesh, MoldRegion.TOOL, Mold::isTool), face, OFFSET);
        }

        private static boolean isTool(Vector3d c) {
            return c.distance(0, 0, CENTRE_Z) < R + 1;
        }

        /** A round block whose cavity is a sphere, open 10 mm above its equator, with shallow ripples all over. */
        private static TriangleMesh bowl(double radius, int steps, int segments) {
            double openDeg = Math.toDegrees(Math.asin(10 / R));
            TriangleMesh plain = new Revolved().to(0, 0).to(120, 0)
                    .to(120, CENTRE_Z + radius * Math.sin(Math.toRadians(openDeg)))
                    .arc(0, CENTRE_Z, radius, openDeg, -90, steps).solid(segments);
            double[] xyz = plain.xyz().clone();
            for (int v = 0; v < xyz.length; v += 3) {
                double r = Math.sqrt(xyz[v] * xyz[v] + xyz[v + 1] * xyz[v + 1]
                        + (xyz[v + 2] - CENTRE_Z) * (xyz[v + 2] - CENTRE_Z));
                if (Math.abs(r - radius) < 1e-6) {
                    // By direction, so that ripples of tool and face lie over each other.
                    double ripple = 0.1 * Math.sin(72 * xyz[v] / r) * Math.sin(72 * xyz[v + 1] / r);
                    double scale = 1 + ripple / r;
                    xyz[v] *= scale;
                    xyz[v + 1] *= scale;
                    xyz[v + 2] = CENTRE_Z + (xyz[v + 2] - CENTRE_Z) * scale;
                }
            }
            return new TriangleMesh(xyz, plain.triangles());
        }
    }
}
