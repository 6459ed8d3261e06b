package layupmold.geometry.fillet;

import layupmold.geometry.congruence.Isometry;
import layupmold.geometry.finding.Place;

/**
 * A place whose filling would tear or cross itself: corners there stay as they are.
 *
 * @param at on the part's face or the flange, frame of the figures, mm
 * @param reachMm how far around it fillings are not complete
 */
public record LeftPlace(Place at, double reachMm) {

    LeftPlace in(Isometry frame) {
        return new LeftPlace(frame.apply(at), reachMm);
    }
}
