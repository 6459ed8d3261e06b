package layupmold.geometry.kit;

import java.util.List;
import java.util.Locale;
import layupmold.geometry.MoldOutcome;
import layupmold.geometry.MoldPipeline;
import layupmold.geometry.Progress;
import layupmold.geometry.RigidTransform;
import layupmold.geometry.drape.Drape;
import layupmold.geometry.drape.DrapedPly;
import layupmold.geometry.drape.ToolSheet;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.PartFile;
import layupmold.geometry.recipe.BodySpec;
import layupmold.geometry.recipe.FlangeSpec;
import layupmold.geometry.recipe.Keep;
import layupmold.geometry.recipe.LengthUnit;
import layupmold.geometry.recipe.Recipe;
import org.joml.Vector3d;

/**
 * A small mold cut from the part's own hardest place, to try print settings, wax, cloth and resin before the real one:
 * a square of the part's face around it, made into a mold by the same pipeline with the same offset.
 *
 * @param place the place, in the part's mold
 * @param at the same in the posted mesh's frame
 * @param sizeMm side of the square in the mold's plan
 * @param recipe the part's own, with a narrow flange and a thin wall
 * @param mold the coupon's mold
 * @param printMinutes time to print it
 */
public record Coupon(
        HardPlace place, Vector3d at, double sizeMm, Recipe recipe, MoldOutcome.Mold mold,
        double printMinutes) {

    /** A try-out must not take an evening of its own. */
    public static final double MOST_PRINT_MIN = 60;

    private static final double[] SIZES_MM = {60, 50, 42, 36, 30, 25, 20};
    private static final double FLANGE_MM = 4;
    private static final double RISE_MM = 1;
    private static final double EDGE_RADIUS_MM = 0.5;
    private static final double WALL_MM = 1.2;

    /**
     * The largest that prints in {@value #MOST_PRINT_MIN} minutes.
     *
     * @param part the part's mold
     * @param asked recipe that it was made by
     * @param spec how its first ply is laid
     * @throws Rejection if no size gives a mold
     */
    public static Coupon of(MoldOutcome.Mold part, Recipe asked, KitSpec spec, Progress progress) {
        progress.at("drape", 0);
        ToolSheet sheet = ToolSheet.of(part);
        RigidTransform moldToPart = part.partToMold().inverse();
        DrapedPly ply = Drape.ply(sheet, LayupKit.howToLay(asked.layup().plies().get(0),
                part.report().laminate().plyMm().get(0), asked.inspect().clothRadiusMm(), spec, moldToPart), moldToPart);
        Recipe recipe = small(asked);
        Finding last = null;
        for (double size : SIZES_MM) {
            HardPlace place = HardPlace.find(sheet, ply, size);
            TriangleMesh patch = PatchCut.square(part.workpiece().face(), place.centre(), size);
            MoldOutcome outcome = MoldPipeline.make(
                    new PartFile(patch, part.report().part().format(), LengthUnit.MM, List.of()), recipe, progress);
            if (outcome instanceof MoldOutcome.Rejected rejected) {
                last = inPart(rejected.reason(), part);
                continue;
            }
            MoldOutcome.Mold mold = (MoldOutcome.Mold) outcome;
            double minutes = 60 * mold.report().print().filament().hours();
            if (minutes <= MOST_PRINT_MIN) {
                return new Coupon(place, moldToPart.apply(place.centre()), size, recipe, mold, minutes);
            }
            last = Finding.error("kit", "coupon-prints-too-long", String.format(Locale.ROOT,
                    "Even a coupon of %.0f mm prints for %.0f minutes.", size, minutes))
                    .measured(minutes, MOST_PRINT_MIN, "min")
                    .advising("Print coarser layers, fewer lines or faster, or choose a place by hand.");
        }
        throw new Rejection(last);
    }

    /** What the coupon need not share with the part: it tries the laminate, not the flange. */
    private static Recipe small(Recipe asked) {
        FlangeSpec flange = asked.flange();
        String title = asked.title() == null ? "coupon" : asked.title() + ", coupon";
        return new Recipe(title, LengthUnit.MM, new Vector3d(0, 0, 1), new Keep.Outer(), asked.tool(), asked.hold(),
                asked.layup(), asked.releaseMm(), asked.openings(),
                new FlangeSpec(Math.min(FLANGE_MM, flange.widthMm()), flange.draftDeg(), RISE_MM,
                        Math.min(EDGE_RADIUS_MM, flange.edgeRadiusMm()), flange.trimLineDepthMm()),
                new BodySpec(BodySpec.Kind.BLOCK, Math.min(WALL_MM, asked.body().wallMm())), asked.printer(),
                asked.inspect());
    }

    private static Finding inPart(Finding finding, MoldOutcome.Mold part) {
        Place place = finding.place();
        return place == null ? finding : finding.at(Place.at(part.partToMold().inverse().apply(place.point())));
    }
}
