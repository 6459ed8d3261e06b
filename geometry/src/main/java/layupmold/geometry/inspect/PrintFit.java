package layupmold.geometry.inspect;

import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import layupmold.geometry.finding.Place;
import layupmold.geometry.laminate.MaterialTables;
import layupmold.geometry.laminate.MaterialTables.PrintMaterial;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.InspectSpec;
import layupmold.geometry.recipe.Printer;
import layupmold.geometry.recipe.Recipe;

/** What printing the solid asks for: supports, bed, material, time, and a material that stands the cure. */
public final class PrintFit {

    /** How much cooler than its softening point a mold should stay to keep its shape: common practice, no source. */
    public static final double LEAST_MARGIN_C = 15;

    private static final double ON_BED_MM = 1e-3;
    private static final int MAX_OVERHANGS = 100;
    /** Share of print time that is no printing at full speed, added on top: common practice, no source. */
    private static final double SLOWER = 1.25;

    private PrintFit() {
    }

    /**
     * Measures the solid as it stands on z = 0.
     *
     * @param wall its thickness, for the share that walls and skins take
     */
    public static PrintFigures measure(MeasuredSolid solid, WallThickness wall, Recipe recipe) {
        InspectSpec spec = recipe.inspect();
        List<Overhang> overhangs = overhangs(solid, spec.overhangDeg());
        double area = overhangs.stream().mapToDouble(Overhang::areaMm2).sum();
        double skin = wall.skinVolume(spec.wallLines() * recipe.printer().nozzleMm());
        return new PrintFigures(spec.overhangDeg(), area,
                overhangs.subList(0, Math.min(MAX_OVERHANGS, overhangs.size())),
                BedFit.of(solid.mesh(), recipe.printer()),
                filament(solid.mesh().volume(), skin, spec, recipe.printer()),
                heat(recipe.printer().material(), spec.cureTemperatureC()));
    }

    /** Pieces that look down by more than {@code limitDeg} from the vertical and do not lie on the bed, largest first. */
    static List<Overhang> overhangs(MeasuredSolid solid, double limitDeg) {
        double down = -Math.sin(Math.toRadians(limitDeg));
        double bed = solid.mesh().bounds()[2] + ON_BED_MM;
        TrianglePieces found = TrianglePieces.of(solid.mesh(),
                t -> solid.normals()[3 * t + 2] < down && !liesBelow(solid.mesh(), t, bed));
        return found.pieces().stream().map(piece -> overhang(solid, piece))
                .filter(piece -> piece.areaMm2() >= PrintedDetail.LEAST_AREA_MM2)
                .sorted(Comparator.comparingDouble(Overhang::areaMm2).reversed()).toList();
    }

    private static boolean liesBelow(TriangleMesh mesh, int triangle, double z) {
        int[] corners = mesh.triangles();
        double[] xyz = mesh.xyz();
        return xyz[3 * corners[3 * triangle] + 2] < z && xyz[3 * corners[3 * triangle + 1] + 2] < z
                && xyz[3 * corners[3 * triangle + 2] + 2] < z;
    }

    private static Overhang overhang(MeasuredSolid solid, int[] piece) {
        double area = 0;
        double most = -1;
        int largest = piece[0];
        for (int t : piece) {
            double own = solid.areas()[t];
            area += own;
            if (own > most) {
                most = own;
                largest = t;
            }
        }
        return new Overhang(Place.at(solid.mesh().centroid(largest)), area);
    }

    /**
     * Material and time. Lines are as wide as the nozzle; the skin is as thick above and below as at the sides.
     *
     * @param skinMm3 volume within the walls' depth of the surface
     */
    static FilamentFigures filament(double volumeMm3, double skinMm3, InspectSpec spec, Printer printer) {
        double full = Math.min(skinMm3, volumeMm3);
        double printed = full + spec.infillShare() * (volumeMm3 - full);
        double density = MaterialTables.printMaterial(printer.material()).density();
        double mass = printed / 1000 * density;
        double flow = printer.nozzleMm() * spec.layerMm() * spec.speedMmPerS();
        double hours = printed / flow / 3600 * SLOWER;
        String words = String.format(Locale.ROOT, "Mass: (%.1f cm³ walls and skins of %d × %.2f mm + %.0f %% of %.1f cm³ "
                + "inside) × %.2f g/cm³. Time: that volume / (%.2f mm line × %.2f mm layer × %.0f mm/s) × %.2f for travel "
                + "and corners.", full / 1000, spec.wallLines(), printer.nozzleMm(), 100 * spec.infillShare(),
                (volumeMm3 - full) / 1000, density, printer.nozzleMm(), spec.layerMm(), spec.speedMmPerS(), SLOWER);
        return new FilamentFigures(printed, mass, hours, words);
    }

    static HeatFigures heat(Printer.Material material, double cureC) {
        PrintMaterial used = MaterialTables.printMaterial(material);
        double margin = used.softensC() - cureC;
        String heat = String.format(Locale.ROOT, "%s softens at about %.0f °C, %.0f °C above the cure. ",
                material, used.softensC(), margin);
        if (margin < LEAST_MARGIN_C) {
            heat = String.format(Locale.ROOT, "%s softens at about %.0f °C, the cure reaches %.0f °C: %s ", material,
                    used.softensC(), cureC, cooler(cureC));
        }
        return new HeatFigures(used.softensC(), cureC, margin, heat + used.advice());
    }

    /** The material that stands the cure with the least to spare, since those print most easily. */
    private static String cooler(double cureC) {
        return MaterialTables.printMaterials().stream()
                .filter(row -> row.softensC() - cureC >= LEAST_MARGIN_C)
                .min(Comparator.comparingDouble(PrintMaterial::softensC))
                .map(row -> "print it in " + row.material() + " or cure cooler.")
                .orElse("no material of the table stands that; cure cooler, or cast the mold in something else.");
    }
}
