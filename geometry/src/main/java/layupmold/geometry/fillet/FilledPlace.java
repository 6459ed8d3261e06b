package layupmold.geometry.fillet;

import layupmold.geometry.congruence.Isometry;
import layupmold.geometry.finding.Place;

/**
 * A connected filled place.
 *
 * @param at where it is deepest, on the part's face or the flange, frame of the figures, mm
 * @param areaMm2 tool surface that the filling takes the place of
 * @param depthMm how far the filled tool surface is from the corner, at most
 */
public record FilledPlace(Place at, double areaMm2, double depthMm) {

    FilledPlace in(Isometry frame) {
        return new FilledPlace(frame.apply(at), areaMm2, depthMm);
    }
}
