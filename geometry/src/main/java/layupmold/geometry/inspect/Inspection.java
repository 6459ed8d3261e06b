package layupmold.geometry.inspect;

import java.util.List;
import java.util.function.Supplier;
import layupmold.geometry.congruence.Isometry;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.laminate.LaminateStack;
import layupmold.geometry.laminate.MaterialTables;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.parallel.Parallel;
import layupmold.geometry.recipe.Recipe;

/**
 * Everything measured on a finished mold besides the checks it must pass. Places are in the mold's frame unless moved.
 *
 * @param wall its thickness
 * @param demold how the part comes out
 * @param deviation how well the tool surface keeps its offset
 * @param fabric how the cloth lies on it
 * @param print how it prints
 * @param maps the same as one value a triangle, for pictures
 * @param findings what of all that deserves a look, in this order
 */
public record Inspection(
        ThicknessFigures wall,
        DemoldFigures demold,
        DeviationFigures deviation,
        FabricFigures fabric,
        PrintFigures print,
        Maps maps,
        List<Finding> findings) {

    public Inspection {
        findings = List.copyOf(findings);
    }

    /**
     * One value a triangle of the mold, NaN where there is none; spread over the mesh each time one is asked for.
     *
     * @param wallMm wall thickness
     * @param draftDeg draft
     * @param deviationMm signed deviation of the tool surface
     * @param radiusMm concave radius
     */
    public record Maps(Supplier<float[]> wallMm, Supplier<float[]> draftDeg, Supplier<float[]> deviationMm,
            Supplier<float[]> radiusMm) {
    }

    /**
     * Measures a mold that passed its checks; deterministic for any number of threads, O(n log n).
     *
     * @param solid standing on z = 0, z along the pull
     * @param face what the tool surface is offset from, in the solid's frame
     * @param offsetMm signed offset along the face's outward normal
     */
    public static Inspection inspect(MeasuredSolid solid, CopiedSurface face, double offsetMm, Recipe recipe) {
        WallThickness[] wall = new WallThickness[1];
        Demold[] demold = new Demold[1];
        ToolDeviation[] deviation = new ToolDeviation[1];
        FabricFit[] fabric = new FabricFit[1];
        PrintFigures[] print = new PrintFigures[1];
        Parallel.all(
                () -> deviation[0] = ToolDeviation.measure(solid, face, offsetMm),
                () -> {
                    wall[0] = WallThickness.measure(solid, leastWallMm(recipe));
                    print[0] = PrintFit.measure(solid, wall[0], recipe);
                },
                () -> demold[0] = Demold.measure(solid, recipe.inspect(), recipe.tool()),
                () -> fabric[0] = FabricFit.measure(solid, recipe));
        return new Inspection(wall[0].figures(), demold[0].figures(), deviation[0].figures(), fabric[0].figures(),
                print[0], new Maps(wall[0]::map, demold[0]::draftMap, deviation[0]::map, fabric[0]::map),
                InspectionFindings.of(wall[0].figures(), demold[0].figures(), fabric[0].figures(), print[0],
                        LaminateStack.of(recipe.layup()).laminateMm(), recipe));
    }

    /** The recipe's limit, or as many lines as the print material needs. */
    static double leastWallMm(Recipe recipe) {
        Double asked = recipe.inspect().leastWallMm();
        return asked != null ? asked : recipe.printer().nozzleMm()
                * MaterialTables.printMaterial(recipe.printer().material()).leastWallLines();
    }

    /** The same, but for the tool's greatest deviation if there is one that is known to be greater than what was sampled. */
    public Inspection knowing(double deviationMm, Place at) {
        return new Inspection(wall, demold, deviation.atLeast(deviationMm, at), fabric, print, maps, findings);
    }

    /** The same with places and directions in another frame; the maps stay. */
    public Inspection in(Isometry frame) {
        return new Inspection(wall.in(frame), demold.in(frame), deviation.in(frame), fabric.in(frame), print.in(frame),
                maps, findings.stream().map(frame::apply).toList());
    }
}
