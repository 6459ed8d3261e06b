package layupmold.geometry.inspect;

/** What a print shows at all. */
final class PrintedDetail {

    /**
     * Pieces of surface that are smaller are left out of lists of places: a line is about 0.4 mm wide (common practice,
     * no source), so that a piece of less than its square is printed solid or not at all.
     */
    static final double LEAST_AREA_MM2 = 0.1;

    private PrintedDetail() {
    }
}
