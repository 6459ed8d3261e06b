package layupmold.geometry.recipe;

/**
 * What the finished mold is held against when it is measured, and how it will be printed and cured.
 *
 * @param toolToleranceMm a mold whose tool surface is farther from its offset than this anywhere is refused, mm
 * @param leastDraftDeg draft below which a surface is reported as tight, degrees
 * @param leastWallMm wall below which the print is reported as thin, mm; null to take it from material and nozzle
 * @param flexDepthMm how far the mold or the laminate may spring to let an undercut pass, mm
 * @param clothRadiusMm least concave radius the cloth follows, mm; null to take it from weave and thickness
 * @param overhangDeg angle from the vertical beyond which a downward surface needs support, degrees
 * @param layerMm print layer height, mm
 * @param wallLines number of lines printed along every outline
 * @param infillShare share of the inside that is filled, 0 to 1
 * @param speedMmPerS mean print speed along the line, mm/s
 * @param cureTemperatureC warmest the mold gets while the laminate cures, °C
 */
public record InspectSpec(
        double toolToleranceMm,
        double leastDraftDeg,
        Double leastWallMm,
        double flexDepthMm,
        Double clothRadiusMm,
        double overhangDeg,
        double layerMm,
        int wallLines,
        double infillShare,
        double speedMmPerS,
        double cureTemperatureC) {

    /** What the offset stage promises; no recipe can ask for less. */
    public static final double LEAST_TOLERANCE_MM = 0.02;

    public InspectSpec {
        Limits.inRange("toolToleranceMm", toolToleranceMm, LEAST_TOLERANCE_MM, 0.5);
        Limits.inRange("leastDraftDeg", leastDraftDeg, 0, 45);
        if (leastWallMm != null) {
            Limits.inRange("leastWallMm", leastWallMm, 0.1, 100);
        }
        Limits.inRange("flexDepthMm", flexDepthMm, 0, 50);
        if (clothRadiusMm != null) {
            Limits.inRange("clothRadiusMm", clothRadiusMm, 0.05, 100);
        }
        Limits.inRange("overhangDeg", overhangDeg, 0, 90);
        Limits.inRange("layerMm", layerMm, 0.02, 2);
        Limits.inRange("wallLines", wallLines, 1, 100);
        Limits.inRange("infillShare", infillShare, 0, 1);
        Limits.inRange("speedMmPerS", speedMmPerS, 1, 1000);
        Limits.inRange("cureTemperatureC", cureTemperatureC, 0, 250);
    }

    /**
     * 1° is the least draft (trade handbooks, from memory). The rest is common practice, no source: 0.5 mm of spring,
     * overhangs to 45°, layers of 0.2 mm, three lines, 15 % infill, 60 mm/s, and a laminate that cures at room
     * temperature and warms to about 30 °C.
     */
    public static InspectSpec defaults() {
        return new InspectSpec(LEAST_TOLERANCE_MM, 1, null, 0.5, null, 45, 0.2, 3, 0.15, 60, 30);
    }

    public InspectSpec withToolTolerance(double mm) {
        return new InspectSpec(mm, leastDraftDeg, leastWallMm, flexDepthMm, clothRadiusMm, overhangDeg,
                layerMm, wallLines, infillShare, speedMmPerS, cureTemperatureC);
    }

    public InspectSpec withFlexDepth(double mm) {
        return new InspectSpec(toolToleranceMm, leastDraftDeg, leastWallMm, mm, clothRadiusMm, overhangDeg,
                layerMm, wallLines, infillShare, speedMmPerS, cureTemperatureC);
    }

    public InspectSpec withClothRadius(Double mm) {
        return new InspectSpec(toolToleranceMm, leastDraftDeg, leastWallMm, flexDepthMm, mm, overhangDeg,
                layerMm, wallLines, infillShare, speedMmPerS, cureTemperatureC);
    }

    public InspectSpec withSpeed(double mmPerS) {
        return new InspectSpec(toolToleranceMm, leastDraftDeg, leastWallMm, flexDepthMm, clothRadiusMm, overhangDeg,
                layerMm, wallLines, infillShare, mmPerS, cureTemperatureC);
    }

    public InspectSpec withCureTemperature(double celsius) {
        return new InspectSpec(toolToleranceMm, leastDraftDeg, leastWallMm, flexDepthMm, clothRadiusMm, overhangDeg,
                layerMm, wallLines, infillShare, speedMmPerS, celsius);
    }
}
