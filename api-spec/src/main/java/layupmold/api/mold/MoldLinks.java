package layupmold.api.mold;

import io.micronaut.serde.annotation.Serdeable;

/**
 * Where to go from here; null for what is not there (yet).
 *
 * @param self this resource
 * @param events progress as server-sent events
 * @param stl the mold, binary STL
 * @param threeMf the mold, 3MF
 * @param report figures and findings
 * @param page the same for people: one HTML page with pictures
 * @param model the mold with its maps, binary glTF
 * @param kit the layup kit: figures, and what there is to print
 * @param templates the plies at full size, PDF for the recipe's paper
 * @param workCard the steps with this part's figures, PDF
 * @param coupon a small mold of the part's hardest place, to try on
 */
@Serdeable
public record MoldLinks(
        String self,
        String events,
        String stl,
        String threeMf,
        String report,
        String page,
        String model,
        String kit,
        String templates,
        String workCard,
        String coupon) {
}
