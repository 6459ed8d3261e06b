package layupmold.api.report;

import io.micronaut.serde.annotation.Serdeable;

/**
 * How the part's openings are made.
 *
 * @param capped closed by the tool surface, to be cut out
 * @param plugged moulded net around a core plug
 * @param leastPlugRiseMm least height of a plug over the highest point of its foot, measured; null without plugs
 * @param leastPlugDraftDeg least draft of a plug's wall, measured; null without plugs
 */
@Serdeable
public record OpeningsReport(
        Integer capped,
        Integer plugged,
        Double leastPlugRiseMm,
        Double leastPlugDraftDeg) {
}
