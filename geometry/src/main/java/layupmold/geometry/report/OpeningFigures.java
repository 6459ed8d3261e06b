package layupmold.geometry.report;

/**
 * How the part's openings are made, measured on the finished solid.
 *
 * @param capped closed by the tool surface, to be cut out
 * @param plugged moulded net around a core plug
 * @param leastPlugRiseMm least height of a plug over the highest point of its foot; null without plugs
 * @param leastPlugDraftDeg least draft of a plug's wall; null without plugs
 */
public record OpeningFigures(int capped, int plugged, Double leastPlugRiseMm, Double leastPlugDraftDeg) {
}
