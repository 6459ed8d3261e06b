package layupmold.service.report;

import java.util.Arrays;
import java.util.List;
import layupmold.geometry.MoldOutcome.Mold;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.RigidTransform;
import layupmold.geometry.Workpiece;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.inspect.CopiedSurface;
import layupmold.geometry.inspect.Inspection;
import layupmold.geometry.inspect.MeasuredSolid;
import layupmold.geometry.laminate.LaminateFigures;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.render.MoldPictures;
import layupmold.geometry.render.Picture;
import layupmold.geometry.report.BodyFigures;
import layupmold.geometry.report.CheckFigures;
import layupmold.geometry.report.FaceFigures;
import layupmold.geometry.report.FlangeFigures;
import layupmold.geometry.report.MoldReport;
import layupmold.geometry.report.OffsetFigures;
import layupmold.geometry.report.OpeningFigures;
import layupmold.geometry.report.PartFigures;
import layupmold.geometry.report.PullFigures;
import org.joml.Vector3d;

/** A dish-shaped part, its mold as a block with a hollow, and a report on them with invented figures. */
final class ReportFixture {

    static final String HOSTILE = "</script><script>alert('x')</script><img src=x onerror=alert(1)> & \"heron\"";
    private static final double SIZE = 160;

    private ReportFixture() {
    }

    static MoldReport report(Inspection inspection) {
        Place place = Place.at(12.5, -30, 8);
        return new MoldReport(
                new PartFigures("stl-binary", "closed-shell", 12_480, 6_242, new Vector3d(140, 110, 42), 31_200, 1, 31_198, 0, 0),
                new PullFigures(new Vector3d(0, 0, 1), true, 240, 0.015, new Vector3d(0.1, 0, 0.995), 410.0),
                new FaceFigures(6_000, 15_800, 15_400, 2, 412),
                new OpeningFigures(2, 0, null, null),
                new LaminateFigures(0.392, List.of(0.30, 0.30, 0.30), 0.90, 630, 630),
                new OffsetFigures(1.1, "inner face held: laminate 0.90 mm plus release layer 0.20 mm", "vertex offset",
                        0.004, 0.011, 0.018, place, 12, 0, inspection.deviation().histogram()),
                new FlangeFigures(42, 20.1, 3.0),
                new BodyFigures("block", 18_000, new Vector3d(SIZE, SIZE, 55), 980_000, 985_000, 0, 2, 0, 68, 4.2, place),
                new CheckFigures(0, 0, 0, 1, 0),
                inspection.wall(), inspection.demold(), inspection.fabric(), null, inspection.print(),
                List.of(
                        Finding.info("pull", "pull-searched", "The pull direction was found by search."),
                        Finding.warning("demold", "locked-region", "An undercut of 240 mm² holds the part: " + HOSTILE)
                                .at(place).measured(0.8, 0.5, "mm").advising("Split the mold along the crown or soften the groove."),
                        Finding.warning("inspect", "thin-wall", "The wall is thin here.").at(place).measured(1.1, 1.2, "mm")));
    }

    static MoldPictures.Subject subject(int cells) {
        TriangleMesh solid = block(cells);
        double[] normals = solid.unitNormals();
        byte[] regions = new byte[solid.triangleCount()];
        for (int t = 0; t < regions.length; t++) {
            Vector3d middle = solid.centroid(t);
            boolean top = t < 2 * cells * cells;
            regions[t] = (byte) (top ? dish(middle.x, middle.y) < 30 ? MoldRegion.TOOL : MoldRegion.BORDER
                    : normals[3 * t + 2] < -0.5 ? MoldRegion.BASE : MoldRegion.SIDE).ordinal();
        }
        TriangleMesh face = plate(40, 2).flipped();
        return new MoldPictures.Subject(shell(40), face, solid, regions, List.of());
    }

    static ReportPage page(String title, int cells) {
        MoldPictures.Subject parts = subject(cells);
        Inspection inspection = Inspection.inspect(
                MeasuredSolid.of(parts.solid(), parts.regions()), CopiedSurface.of(parts.face()), 1.1, Recipe.defaults());
        Mold mold = new Mold(parts.solid(), parts.regions(), RigidTransform.identity(), report(inspection), inspection,
                new Workpiece(parts.part(), parts.face()));
        Inspected inspected = Inspected.of(mold, Recipe.defaults());
        MoldPictures.Subject subject = new MoldPictures.Subject(
                parts.part(), parts.face(), parts.solid(), parts.regions(), inspected.maps());
        List<Picture> pictures = MoldPictures.of(subject);
        List<LookFile> files = pictures.stream()
                .map(picture -> new LookFile(picture.name(), "image/png", picture.toPng())).toList();
        return ReportPageBuilder.build(title, mold.report(), inspected, pictures, files, InteractiveView.of(subject));
    }

    private static double dish(double x, double y) {
        double r = Math.hypot(x / 1.2, y) / (0.36 * SIZE);
        return r >= 1 ? 30 : 30 - 24 * Math.sqrt(1 - r * r);
    }

    private static TriangleMesh shell(int cells) {
        TriangleMesh upper = plate(cells, 4);
        TriangleMesh lower = plate(cells, 2).flipped();
        double[] xyz = Arrays.copyOf(upper.xyz(), 2 * upper.xyz().length);
        System.arraycopy(lower.xyz(), 0, xyz, upper.xyz().length, lower.xyz().length);
        int[] triangles = Arrays.copyOf(upper.triangles(), 2 * upper.triangles().length);
        for (int c = 0; c < lower.triangles().length; c++) {
            triangles[upper.triangles().length + c] = lower.triangles()[c] + upper.vertexCount();
        }
        return new TriangleMesh(xyz, triangles);
    }

    private static TriangleMesh plate(int cells, double lift) {
        return grid(cells, lift, 0.62);
    }

    private static TriangleMesh grid(int cells, double lift, double share) {
        int n = cells + 1;
        double[] xyz = new double[3 * n * n];
        int[] triangles = new int[6 * cells * cells];
        for (int v = 0, t = 0; v < n * n; v++) {
            int i = v % n;
            int j = v / n;
            xyz[3 * v] = share * SIZE * ((double) i / cells - 0.5);
            xyz[3 * v + 1] = share * SIZE * ((double) j / cells - 0.5);
            xyz[3 * v + 2] = 25 + lift + dish(xyz[3 * v], xyz[3 * v + 1]);
            if (i < cells && j < cells) {
                for (int corner : new int[] {v, v + 1, v + n + 1, v, v + n + 1, v + n}) {
                    triangles[t++] = corner;
                }
            }
        }
        return new TriangleMesh(xyz, triangles);
    }

    /** The dish sunk into a block: top first, then sides and base. */
    private static TriangleMesh block(int cells) {
        TriangleMesh top = grid(cells, 0, 1);
        int n = cells + 1;
        int[] rim = new int[4 * cells];
        for (int k = 0; k < cells; k++) {
            rim[k] = k;
            rim[cells + k] = k * n + cells;
            rim[2 * cells + k] = cells * n + cells - k;
            rim[3 * cells + k] = (cells - k) * n;
        }
        double[] xyz = Arrays.copyOf(top.xyz(), top.xyz().length + 3 * rim.length);
        int[] triangles = Arrays.copyOf(top.triangles(), top.triangles().length + 3 * (3 * rim.length - 2));
        int at = top.triangles().length;
        for (int k = 0; k < rim.length; k++) {
            int below = n * n + k;
            int next = (k + 1) % rim.length;
            xyz[3 * below] = xyz[3 * rim[k]];
            xyz[3 * below + 1] = xyz[3 * rim[k] + 1];
            int[] corners = {rim[k], n * n + next, rim[next], rim[k], below, n * n + next};
            System.arraycopy(corners, 0, triangles, at, 6);
            at += 6;
            if (k > 0 && k < rim.length - 1) {
                System.arraycopy(new int[] {n * n, n * n + next, below}, 0, triangles, at, 3);
                at += 3;
            }
        }
        return new TriangleMesh(xyz, triangles);
    }
}
