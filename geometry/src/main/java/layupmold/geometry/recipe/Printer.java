package layupmold.geometry.recipe;

/**
 * The machine that will print the mold.
 *
 * @param bedXMm usable width
 * @param bedYMm usable depth
 * @param heightMm usable height
 * @param nozzleMm nozzle width
 * @param material print material in generic terms
 */
public record Printer(double bedXMm, double bedYMm, double heightMm, double nozzleMm, Material material) {

    /** Print materials the figures know. */
    public enum Material {
        PETG, PLA, ABS, ASA, PC
    }

    public Printer {
        Limits.inRange("bedXMm", bedXMm, 10, 5000);
        Limits.inRange("bedYMm", bedYMm, 10, 5000);
        Limits.inRange("heightMm", heightMm, 10, 5000);
        Limits.inRange("nozzleMm", nozzleMm, 0.1, 3);
    }

    /** A 256 mm cube, 0.4 mm nozzle, PETG (first choice for such molds: common practice, no source). */
    public static Printer defaults() {
        return new Printer(256, 256, 256, 0.4, Material.PETG);
    }
}
