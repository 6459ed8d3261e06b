package layupmold.geometry.mark;

/**
 * Section of a trim line's mark on the surface that will be offset: a V beside the line, such that the offset surface
 * has the depth asked for.
 *
 * <p>The V's sides keep their slope θ when they move by the offset q, and their crossing with the ground moves by
 * q tan(θ/2), since both planes move by q along their normals. A mark that grows, a groove of a cavity outside the part,
 * is therefore made narrower and, where it grows by much, begins as much farther out; one that shrinks, a ridge of a
 * plug inside, is made wider and begins that much beyond the line.
 *
 * @param leadMm plain strip between the line and the mark
 * @param widthMm of the mark
 * @param depthMm of the mark at its middle, positive for a mark raised along the surface's normal and negative for a
 *     sunk one; all 0 for no mark
 */
public record TrimMark(double leadMm, double widthMm, double depthMm) {

    public static final TrimMark NONE = new TrimMark(0, 0, 0);

    /** Least width of the mark and width by depth, on the tool: common practice, no source. */
    private static final double LEAST_WIDTH_MM = 0.8;
    private static final double WIDTH_BY_DEPTH = 3;
    /** Least half width before it is offset: in narrower ones more folds. The tool's is wider for it, and less steep. */
    private static final double LEAST_HALF_MM = 0.4;
    /** A shrinking mark is made so wide that it begins no farther beyond the line. */
    private static final double MOST_SHIFT_MM = 0.5;
    /** A mark that grows by less over the line may: the strip against it is narrow, and such strips fold. */
    private static final double LEAST_LEAD_MM = 0.3;
    /** Left of the strip on the tool: one that closes altogether folds as often as not. */
    private static final double OPEN_LEAD_MM = 0.15;

    /**
     * @param toolDepthMm wanted on the tool, at least 0
     * @param offsetMm signed offset along the part's outward normal that will follow: marks grow with it
     */
    public static TrimMark of(double toolDepthMm, double offsetMm) {
        if (toolDepthMm == 0) {
            return NONE;
        }
        double half = halfOnTool(toolDepthMm, offsetMm);
        double shift = offsetMm * (Math.hypot(half, toolDepthMm) - half) / toolDepthMm;
        double halfBefore = half - shift;
        double lead = shift < LEAST_LEAD_MM ? 0 : shift + OPEN_LEAD_MM;
        return new TrimMark(lead, 2 * halfBefore, halfBefore * toolDepthMm / half);
    }

    private static double halfOnTool(double depth, double offset) {
        double least = Math.max(LEAST_WIDTH_MM, WIDTH_BY_DEPTH * depth) / 2;
        // tan(θ/2) is below half of tan θ.
        return Math.max(least, offset > 0 ? halfOfGrowing(depth, offset) : -offset * depth / (2 * MOST_SHIFT_MM));
    }

    /** The half width h on the tool of which {@link #LEAST_HALF_MM}, h − q tan(θ/2), is left; tan θ is depth by h. */
    private static double halfOfGrowing(double depth, double offset) {
        double a = offset / depth;
        double b = LEAST_HALF_MM * (1 + a);
        double c = LEAST_HALF_MM * LEAST_HALF_MM - a * a * depth * depth;
        return (b + Math.sqrt(b * b - (1 + 2 * a) * c)) / (1 + 2 * a);
    }

    /** The same mark on the surface's other side. */
    public TrimMark reversed() {
        return new TrimMark(leadMm, widthMm, -depthMm);
    }

    /** A mark of the same slopes in a share of the room. */
    public TrimMark scaled(double share) {
        return new TrimMark(share * leadMm, share * widthMm, share * depthMm);
    }

    /** Distance of the deepest line from the trim line. */
    public double valleyMm() {
        return leadMm + widthMm / 2;
    }

    /** Distance of the mark's far edge from the trim line. */
    public double endMm() {
        return leadMm + widthMm;
    }
}
