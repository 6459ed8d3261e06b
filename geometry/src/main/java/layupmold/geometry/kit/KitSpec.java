package layupmold.geometry.kit;

import layupmold.geometry.laminate.MaterialTables;
import org.joml.Vector3d;

/**
 * What the kit needs to know besides the mold's recipe.
 *
 * @param marginMm cloth beyond the tool's outline on every side
 * @param rollWidthMm width of the cloth's roll
 * @param clearanceMm least distance between pieces on the roll
 * @param paper page that templates are printed on
 * @param resin laminating resin
 * @param coatResin resin of the finish coat
 * @param lossShare resin mixed beyond need for brush, cups and table, 0 to 1
 * @param workshopC temperature of workshop and resin, °C
 * @param spreadGramsPerMin how fast one pair of hands wets out cloth, g of mixed resin a minute
 * @param finishCoats number of coats that make up the finish coat
 * @param lockingDeg shear at which the yarns of every ply jam, or null to take it from each weave
 * @param start where every ply first touches the tool, in the posted mesh's frame (mm), or null to search
 */
public record KitSpec(
        double marginMm, double rollWidthMm, double clearanceMm, Paper paper, ResinSpec resin, ResinSpec coatResin,
        double lossShare, double workshopC, double spreadGramsPerMin, int finishCoats, Double lockingDeg,
        Vector3d start) {

    /** Page sizes (ISO 216; ANSI/ASME Y14.1 A). */
    public enum Paper {
        A4(210, 297), LETTER(215.9, 279.4), A3(297, 420);

        private final double widthMm;
        private final double heightMm;

        Paper(double widthMm, double heightMm) {
            this.widthMm = widthMm;
            this.heightMm = heightMm;
        }

        public double widthMm() {
            return widthMm;
        }

        public double heightMm() {
            return heightMm;
        }
    }

    public KitSpec {
        inRange("marginMm", marginMm, 0, 200);
        inRange("rollWidthMm", rollWidthMm, 50, 5000);
        inRange("clearanceMm", clearanceMm, 0, 15);
        inRange("lossShare", lossShare, 0, 1);
        inRange("workshopC", workshopC, 5, 45);
        inRange("spreadGramsPerMin", spreadGramsPerMin, 0.5, 1000);
        inRange("finishCoats", finishCoats, 1, 20);
        if (lockingDeg != null) {
            inRange("lockingDeg", lockingDeg, 5, 85);
        }
        start = start == null ? null : new Vector3d(start);
    }

    private static void inRange(String name, double value, double least, double most) {
        if (!(value >= least && value <= most)) {
            throw new IllegalArgumentException(name + " must lie between " + least + " and " + most + ", not " + value);
        }
    }

    /**
     * 20 mm of margin, a metre-wide roll, 5 mm between pieces, A4, slow laminating epoxy and clear coating epoxy of the
     * open table, 15 % of loss, 20 °C, 8 g a minute, two finish coats: all common practice, no source.
     */
    public static KitSpec defaults() {
        return new KitSpec(20, 1000, 5, Paper.A4, ResinSpec.of(MaterialTables.resin("laminating epoxy slow")),
                ResinSpec.of(MaterialTables.resin("clear coating epoxy")), 0.15, 20, 8, 2, null, null);
    }

    public KitSpec withPaper(Paper page) {
        return new KitSpec(marginMm, rollWidthMm, clearanceMm, page, resin, coatResin, lossShare, workshopC,
                spreadGramsPerMin, finishCoats, lockingDeg, start);
    }

    public KitSpec withResin(ResinSpec laminating) {
        return new KitSpec(marginMm, rollWidthMm, clearanceMm, paper, laminating, coatResin, lossShare, workshopC,
                spreadGramsPerMin, finishCoats, lockingDeg, start);
    }

    public KitSpec withRoll(double widthMm) {
        return new KitSpec(marginMm, widthMm, clearanceMm, paper, resin, coatResin, lossShare, workshopC,
                spreadGramsPerMin, finishCoats, lockingDeg, start);
    }

    public KitSpec withWorkshop(double celsius) {
        return new KitSpec(marginMm, rollWidthMm, clearanceMm, paper, resin, coatResin, lossShare, celsius,
                spreadGramsPerMin, finishCoats, lockingDeg, start);
    }

    public KitSpec withLocking(double degrees) {
        return new KitSpec(marginMm, rollWidthMm, clearanceMm, paper, resin, coatResin, lossShare, workshopC,
                spreadGramsPerMin, finishCoats, degrees, start);
    }

    public KitSpec withStart(Vector3d point) {
        return new KitSpec(marginMm, rollWidthMm, clearanceMm, paper, resin, coatResin, lossShare, workshopC,
                spreadGramsPerMin, finishCoats, lockingDeg, point);
    }
}
