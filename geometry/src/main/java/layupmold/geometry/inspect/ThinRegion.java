package layupmold.geometry.inspect;

import layupmold.geometry.congruence.Isometry;
import layupmold.geometry.finding.Place;

/**
 * A connected piece of wall thinner than the limit.
 *
 * @param at where it is thinnest, on the surface, frame of the figures, mm
 * @param areaMm2 area of the wall, measured as half the surface on both its sides
 * @param leastMm least thickness
 */
public record ThinRegion(Place at, double areaMm2, double leastMm) {

    /** The same with places in another frame. */
    ThinRegion in(Isometry frame) {
        return new ThinRegion(frame.apply(at), areaMm2, leastMm);
    }
}
