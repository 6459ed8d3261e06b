package layupmold.geometry.kit;

import layupmold.geometry.MoldOutcome;
import layupmold.geometry.Progress;
import layupmold.geometry.RigidTransform;
import layupmold.geometry.drape.Drape;
import layupmold.geometry.drape.DrapedPly;
import layupmold.geometry.drape.ToolSheet;
import layupmold.geometry.finding.Rejection;
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

    private static final double FLANGE_MM = 4;
    private static final double RISE_MM = 1;
    private static final double EDGE_RADIUS_MM = 0.5;
    private static final double WALL_MM = 1.2;

    /**
     * The largest of a few sizes that prints in {@value #MOST_PRINT_MIN} minutes.
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
        return new CouponSizes(part, ply, small(asked), progress).largest();
    }

    /** What the coupon need not share with the part: it tries the laminate, not the flange. */
    private static Recipe small(Recipe asked) {
        FlangeSpec flange = asked.flange();
        String title = asked.title() == null ? "coupon" : asked.title() + ", coupon";
        return new Recipe(title, LengthUnit.MM, new Vector3d(0, 0, 1), new Keep.Outer(), asked.tool(), asked.hold(),
                asked.layup(), asked.releaseMm(), asked.openings(),
                new FlangeSpec(Math.min(FLANGE_MM, flange.widthMm()), flange.draftDeg(), RISE_MM,
                        Math.min(EDGE_RADIUS_MM, flange.edgeRadiusMm()), flange.trimLineDepthMm()),
                asked.fillet(),
                new BodySpec(BodySpec.Kind.BLOCK, Math.min(WALL_MM, asked.body().wallMm())), asked.printer(),
                asked.inspect());
    }
}
