package layupmold.service.recipe;

import java.util.List;
import java.util.Locale;
import layupmold.api.recipe.BodyKind;
import layupmold.api.recipe.BodyRecipe;
import layupmold.api.recipe.FibreKind;
import layupmold.api.recipe.FilletRecipe;
import layupmold.api.recipe.FlangeRecipe;
import layupmold.api.recipe.HeldFace;
import layupmold.api.recipe.InspectRecipe;
import layupmold.api.recipe.KeepRecipe;
import layupmold.api.recipe.LayupRecipe;
import layupmold.api.recipe.MeshUnit;
import layupmold.api.recipe.MoldRecipe;
import layupmold.api.recipe.NotchRecipe;
import layupmold.api.recipe.OpeningKind;
import layupmold.api.recipe.OpeningsRecipe;
import layupmold.api.recipe.PlyRecipe;
import layupmold.api.recipe.PrintMaterial;
import layupmold.api.recipe.PrinterRecipe;
import layupmold.api.recipe.ScrewRecipe;
import layupmold.api.recipe.ToolKind;
import layupmold.api.recipe.WallSide;
import layupmold.api.recipe.WeaveKind;
import layupmold.geometry.kit.KitSpec;
import layupmold.geometry.laminate.MaterialTables;
import layupmold.geometry.recipe.BodySpec;
import layupmold.geometry.recipe.FilletSpec;
import layupmold.geometry.recipe.FlangeSpec;
import layupmold.geometry.recipe.Hold;
import layupmold.geometry.recipe.InspectSpec;
import layupmold.geometry.recipe.Keep;
import layupmold.geometry.recipe.Layup;
import layupmold.geometry.recipe.LengthUnit;
import layupmold.geometry.recipe.NotchSpec;
import layupmold.geometry.recipe.OpeningSpec;
import layupmold.geometry.recipe.Ply;
import layupmold.geometry.recipe.Printer;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.recipe.ScrewSpec;
import layupmold.geometry.recipe.Tool;
import layupmold.geometry.recipe.Weave;
import org.joml.Vector3d;

/** Recipes between the contract and the geometry. Absent fields take the geometry's own defaults. */
final class RecipeMapping {

    private RecipeMapping() {
    }

    /**
     * @throws IllegalArgumentException if the geometry refuses a value that the contract let pass
     */
    static Recipe toGeometry(MoldRecipe asked) {
        Recipe usual = Recipe.defaults();
        return new Recipe(
                asked.title(),
                named(asked.unit(), LengthUnit.class, usual.unit()),
                asked.pull() == null ? usual.pull() : vector(asked.pull()),
                asked.keep() == null ? usual.keep() : keep(asked.keep()),
                named(asked.tool(), Tool.class, usual.tool()),
                named(asked.hold(), Hold.class, usual.hold()),
                asked.layup() == null ? usual.layup() : layup(asked.layup(), usual.layup()),
                or(asked.releaseMm(), usual.releaseMm()),
                asked.openings() == null ? usual.openings() : openings(asked.openings(), usual.openings()),
                asked.flange() == null ? usual.flange() : flange(asked.flange(), usual.flange()),
                asked.fillet() == null ? usual.fillet() : fillet(asked.fillet(), usual.fillet()),
                asked.body() == null ? usual.body() : body(asked.body(), usual.body()),
                asked.printer() == null ? usual.printer() : printer(asked.printer(), usual.printer()),
                asked.inspect() == null ? usual.inspect() : inspect(asked.inspect(), usual.inspect()));
    }

    private static Keep keep(KeepRecipe asked) {
        if (asked.seed() != null) {
            return new Keep.Seed(asked.seed().get(0), asked.seed().get(1), asked.seed().get(2));
        }
        return asked.side() == WallSide.INNER ? new Keep.Inner() : new Keep.Outer();
    }

    private static Layup layup(LayupRecipe asked, Layup usual) {
        return new Layup(
                asked.plies() == null
                        ? usual.plies() : asked.plies().stream().map(RecipeMapping::ply).toList(),
                or(asked.fibreWeightFraction(), usual.fibreWeightFraction()),
                or(asked.matrixDensity(), usual.matrixDensity()),
                or(asked.finishCoatMm(), usual.finishCoatMm()));
    }

    private static Ply ply(PlyRecipe asked) {
        Ply usual = Ply.carbonTwill(0);
        String fibre = asked.fibre() == null ? usual.fibre() : rowName(asked.fibre());
        return new Ply(
                named(asked.weave(), Weave.class, usual.weave()),
                or(asked.arealWeightGsm(), usual.arealWeightGsm()),
                or(asked.fibreDensity(), MaterialTables.fibre(fibre).density()),
                or(asked.angleDeg(), usual.angleDeg()),
                fibre,
                asked.tow() == null ? usual.tow() : asked.tow());
    }

    /** Of the open fibre table. */
    static String rowName(FibreKind kind) {
        return kind.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    private static FibreKind fibre(String rowName) {
        return FibreKind.valueOf(rowName.toUpperCase(Locale.ROOT).replace('-', '_'));
    }

    private static FilletSpec fillet(FilletRecipe asked, FilletSpec usual) {
        return new FilletSpec(asked.fill() == null ? usual.fill() : asked.fill(),
                asked.radiusMm() == null ? usual.radiusMm() : asked.radiusMm());
    }

    private static OpeningSpec openings(OpeningsRecipe asked, OpeningSpec usual) {
        return new OpeningSpec(
                named(asked.kind(), OpeningSpec.Kind.class, usual.kind()),
                or(asked.plugHeightMm(), usual.plugHeightMm()),
                or(asked.plugDraftDeg(), usual.plugDraftDeg()),
                asked.exceptAt() == null
                        ? usual.exceptAt() : asked.exceptAt().stream().map(RecipeMapping::vector).toList());
    }

    private static FlangeSpec flange(FlangeRecipe asked, FlangeSpec usual) {
        return new FlangeSpec(
                or(asked.widthMm(), usual.widthMm()),
                or(asked.draftDeg(), usual.draftDeg()),
                or(asked.riseMm(), usual.riseMm()),
                or(asked.edgeRadiusMm(), usual.edgeRadiusMm()),
                or(asked.trimLineDepthMm(), usual.trimLineDepthMm()));
    }

    private static BodySpec body(BodyRecipe asked, BodySpec usual) {
        return new BodySpec(
                named(asked.kind(), BodySpec.Kind.class, usual.kind()),
                or(asked.wallMm(), usual.wallMm()),
                or(asked.feet(), usual.feet()),
                or(asked.ribMm(), usual.ribMm()),
                asked.notches() == null ? usual.notches() : notches(asked.notches(), usual.notches()),
                asked.screws() == null ? usual.screws() : screws(asked.screws(), usual.screws()));
    }

    private static NotchSpec notches(NotchRecipe asked, NotchSpec usual) {
        return new NotchSpec(
                or(asked.count(), usual.count()),
                or(asked.widthMm(), usual.widthMm()),
                or(asked.depthMm(), usual.depthMm()),
                or(asked.heightMm(), usual.heightMm()));
    }

    private static ScrewSpec screws(ScrewRecipe asked, ScrewSpec usual) {
        return new ScrewSpec(or(asked.count(), usual.count()), or(asked.diameterMm(), usual.diameterMm()));
    }

    private static Printer printer(PrinterRecipe asked, Printer usual) {
        return new Printer(
                or(asked.bedXMm(), usual.bedXMm()),
                or(asked.bedYMm(), usual.bedYMm()),
                or(asked.heightMm(), usual.heightMm()),
                or(asked.nozzleMm(), usual.nozzleMm()),
                named(asked.material(), Printer.Material.class, usual.material()));
    }

    private static InspectSpec inspect(InspectRecipe asked, InspectSpec usual) {
        return new InspectSpec(
                or(asked.toolToleranceMm(), usual.toolToleranceMm()),
                or(asked.leastDraftDeg(), usual.leastDraftDeg()),
                asked.leastWallMm() == null ? usual.leastWallMm() : asked.leastWallMm(),
                or(asked.flexDepthMm(), usual.flexDepthMm()),
                asked.clothRadiusMm() == null ? usual.clothRadiusMm() : asked.clothRadiusMm(),
                or(asked.overhangDeg(), usual.overhangDeg()),
                or(asked.layerMm(), usual.layerMm()),
                asked.wallLines() == null ? usual.wallLines() : asked.wallLines(),
                or(asked.infillShare(), usual.infillShare()),
                or(asked.speedMmPerS(), usual.speedMmPerS()),
                or(asked.cureTemperatureC(), usual.cureTemperatureC()));
    }

    static MoldRecipe toContract(Recipe recipe, KitSpec kit) {
        return new MoldRecipe(
                recipe.title(),
                MeshUnit.valueOf(recipe.unit().name()),
                recipe.pull() == null ? null : List.of(recipe.pull().x, recipe.pull().y, recipe.pull().z),
                toContract(recipe.keep()),
                ToolKind.valueOf(recipe.tool().name()),
                HeldFace.valueOf(recipe.hold().name()),
                toContract(recipe.layup()),
                recipe.releaseMm(),
                toContract(recipe.openings()),
                toContract(recipe.flange()),
                new FilletRecipe(recipe.fillet().fill(), recipe.fillet().radiusMm()),
                toContract(recipe.body()),
                toContract(recipe.printer()),
                toContract(recipe.inspect()),
                KitMapping.toContract(kit));
    }

    private static KeepRecipe toContract(Keep keep) {
        if (keep instanceof Keep.Seed seed) {
            return new KeepRecipe(null, List.of(seed.x(), seed.y(), seed.z()));
        }
        return new KeepRecipe(keep instanceof Keep.Inner ? WallSide.INNER : WallSide.OUTER, null);
    }

    private static LayupRecipe toContract(Layup layup) {
        List<PlyRecipe> plies = layup.plies().stream()
                .map(ply -> new PlyRecipe(WeaveKind.valueOf(ply.weave().name()), ply.arealWeightGsm(),
                        ply.fibreDensity(), ply.angleDeg(), fibre(ply.fibre()), ply.tow().isEmpty() ? null : ply.tow()))
                .toList();
        return new LayupRecipe(plies, layup.fibreWeightFraction(), layup.matrixDensity(), layup.finishCoatMm());
    }

    private static OpeningsRecipe toContract(OpeningSpec openings) {
        return new OpeningsRecipe(OpeningKind.valueOf(openings.kind().name()), openings.plugHeightMm(),
                openings.plugDraftDeg(), openings.exceptAt().stream().map(p -> List.of(p.x, p.y, p.z)).toList());
    }

    private static FlangeRecipe toContract(FlangeSpec flange) {
        return new FlangeRecipe(flange.widthMm(), flange.draftDeg(), flange.riseMm(), flange.edgeRadiusMm(),
                flange.trimLineDepthMm());
    }

    private static BodyRecipe toContract(BodySpec body) {
        NotchSpec notches = body.notches();
        return new BodyRecipe(BodyKind.valueOf(body.kind().name()), body.wallMm(), body.feet(), body.ribMm(),
                new NotchRecipe(notches.count(), notches.widthMm(), notches.depthMm(), notches.heightMm()),
                new ScrewRecipe(body.screws().count(), body.screws().diameterMm()));
    }

    private static PrinterRecipe toContract(Printer printer) {
        return new PrinterRecipe(printer.bedXMm(), printer.bedYMm(), printer.heightMm(), printer.nozzleMm(),
                PrintMaterial.valueOf(printer.material().name()));
    }

    private static InspectRecipe toContract(InspectSpec inspect) {
        return new InspectRecipe(inspect.toolToleranceMm(), inspect.leastDraftDeg(), inspect.leastWallMm(),
                inspect.flexDepthMm(), inspect.clothRadiusMm(), inspect.overhangDeg(), inspect.layerMm(),
                inspect.wallLines(), inspect.infillShare(), inspect.speedMmPerS(), inspect.cureTemperatureC());
    }

    /** The constant of the same name in the geometry's enum. */
    static <E extends Enum<E>> E named(Enum<?> asked, Class<E> type, E usual) {
        return asked == null ? usual : Enum.valueOf(type, asked.name());
    }

    private static int or(Integer asked, int usual) {
        return asked == null ? usual : asked;
    }

    static double or(Double asked, double usual) {
        return asked == null ? usual : asked;
    }

    private static Vector3d vector(List<Double> xyz) {
        return new Vector3d(xyz.get(0), xyz.get(1), xyz.get(2));
    }
}
