package layupmold.geometry.laminate;

import java.io.IOException;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.function.Function;
import java.util.function.Predicate;
import layupmold.geometry.recipe.Printer;
import layupmold.geometry.recipe.Weave;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;

/**
 * Small open tables of fibres, cloths, weaves, resins and print materials in generic trade terms.
 *
 * <p>They live as CSV beside this class; each row says where its figures come from ({@code source}). They are starting
 * points for a recipe: the data sheet of the material in hand always wins.
 */
public final class MaterialTables {

    /** @param density g/cm³ */
    public record Fibre(String name, double density, String source) {
    }

    /**
     * @param fibre name of a row in the fibre table
     * @param arealWeightGsm g/m²
     * @param tow filaments a yarn in trade notation, or empty
     * @param widthMm usual width of the roll
     */
    public record Cloth(
            String name, String fibre, Weave weave, double arealWeightGsm, String tow, double widthMm, String source) {
    }

    /**
     * @param lockingDeg shear angle at which yarns jam and the cloth starts to wrinkle
     * @param leastRadiusPerMm least concave radius that the cloth follows, per mm of cured ply
     */
    public record WeaveFigures(Weave weave, double lockingDeg, double leastRadiusPerMm, String source) {
    }

    /**
     * @param hardenerPer100 hardener to 100 parts of resin, by mass
     * @param resinDensity liquid resin, g/cm³
     * @param hardenerDensity liquid hardener, g/cm³
     * @param curedDensity g/cm³
     * @param potLifeMin minutes from mixing to gel of a 100 g cup at 20 °C
     * @param largestCupG most that may stand mixed in one cup without running hot, g
     * @param tackHours hours at 20 °C until the next coat keys without sanding
     * @param demoldHours hours at 20 °C until the part may leave the mold
     * @param fullCureHours hours at 20 °C until sanding and load
     * @param shelfMonths months that closed cans keep
     */
    public record Resin(
            String name, double hardenerPer100, double resinDensity, double hardenerDensity, double curedDensity,
            double potLifeMin, double largestCupG, double tackHours, double demoldHours, double fullCureHours,
            double shelfMonths, String source) {
    }

    /**
     * @param density g/cm³
     * @param softensC glass transition, °C
     * @param leastWallLines lines side by side that a wall of a mold needs to be stiff and tight
     * @param advice how it does as a laminating mold, one sentence
     */
    public record PrintMaterial(Printer.Material material, double density, double softensC, int leastWallLines,
            String advice, String source) {
    }

    private static final List<Fibre> FIBRES = read("fibres.csv",
            r -> new Fibre(r.get("name"), number(r, "density_g_cm3"), r.get("source")));
    private static final List<Cloth> CLOTHS = read("cloths.csv",
            r -> new Cloth(r.get("name"), r.get("fibre"), Weave.valueOf(r.get("weave")), number(r, "areal_weight_gsm"),
                    r.get("tow"), number(r, "width_mm"), r.get("source")));
    private static final List<WeaveFigures> WEAVES = read("weaves.csv",
            r -> new WeaveFigures(Weave.valueOf(r.get("weave")), number(r, "locking_deg"),
                    number(r, "least_radius_per_mm"), r.get("source")));
    private static final List<Resin> RESINS = read("resins.csv",
            r -> new Resin(r.get("name"), number(r, "hardener_per_100_by_mass"), number(r, "resin_density"),
                    number(r, "hardener_density"), number(r, "cured_density"), number(r, "pot_life_min"),
                    number(r, "largest_cup_g"), number(r, "tack_h"), number(r, "demold_h"), number(r, "full_cure_h"),
                    number(r, "shelf_months"), r.get("source")));
    private static final List<PrintMaterial> PRINT_MATERIALS = read("print-materials.csv",
            r -> new PrintMaterial(Printer.Material.valueOf(r.get("material")), number(r, "density_g_cm3"),
                    number(r, "softens_c"), (int) number(r, "least_wall_lines"), r.get("advice"), r.get("source")));

    private MaterialTables() {
    }

    public static List<Fibre> fibres() {
        return FIBRES;
    }

    public static List<Cloth> cloths() {
        return CLOTHS;
    }

    public static List<WeaveFigures> weaves() {
        return WEAVES;
    }

    public static List<Resin> resins() {
        return RESINS;
    }

    public static List<PrintMaterial> printMaterials() {
        return PRINT_MATERIALS;
    }

    /** Figures of one weave. */
    public static WeaveFigures weave(Weave weave) {
        return find(WEAVES, row -> row.weave() == weave, weave);
    }

    /** @throws IllegalArgumentException if the table has no fibre of that name */
    public static Fibre fibre(String name) {
        return find(FIBRES, row -> row.name().equals(name), name);
    }

    /** Figures of one print material. */
    public static PrintMaterial printMaterial(Printer.Material material) {
        return find(PRINT_MATERIALS, row -> row.material() == material, material);
    }

    /** @throws IllegalArgumentException if the table has no resin of that name */
    public static Resin resin(String name) {
        return find(RESINS, row -> row.name().equals(name), name);
    }

    private static <T> T find(List<T> rows, Predicate<T> wanted, Object key) {
        return rows.stream().filter(wanted).findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no such row: " + key));
    }

    private static double number(CSVRecord row, String column) {
        return Double.parseDouble(row.get(column));
    }

    private static <T> List<T> read(String file, Function<CSVRecord, T> row) {
        CSVFormat format = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
        try (Reader in = new InputStreamReader(MaterialTables.class.getResourceAsStream(file), StandardCharsets.UTF_8)) {
            return format.parse(in).stream().map(row).toList();
        } catch (IOException e) {
            throw new UncheckedIOException("cannot read the built-in table " + file, e);
        }
    }
}
