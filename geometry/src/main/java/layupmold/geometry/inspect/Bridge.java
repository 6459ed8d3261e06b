package layupmold.geometry.inspect;

import layupmold.geometry.congruence.Isometry;
import layupmold.geometry.finding.Place;

/**
 * A connected place where the cloth spans a corner instead of lying in it.
 *
 * @param at where the gap is deepest, on the surface, frame of the figures, mm
 * @param areaMm2 surface that the cloth does not touch
 * @param radiusMm least concave radius there
 * @param gapMm deepest gap under the cloth
 */
public record Bridge(Place at, double areaMm2, double radiusMm, double gapMm) {

    /** The same with places in another frame. */
    Bridge in(Isometry frame) {
        return new Bridge(frame.apply(at), areaMm2, radiusMm, gapMm);
    }
}
