package layupmold.geometry.inspect;

import layupmold.geometry.congruence.Isometry;
import layupmold.geometry.finding.Place;

/**
 * A connected piece of surface that prints over air.
 *
 * @param at middle of its largest triangle, frame of the figures, mm
 * @param areaMm2 its area
 */
public record Overhang(Place at, double areaMm2) {

    /** The same with places in another frame. */
    Overhang in(Isometry frame) {
        return new Overhang(frame.apply(at), areaMm2);
    }
}
