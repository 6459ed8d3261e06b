package layupmold.geometry.inspect;

import layupmold.geometry.congruence.Isometry;
import layupmold.geometry.finding.Place;

/**
 * A connected piece of undercut.
 *
 * @param at where it is deepest, frame of the figures, mm
 * @param areaMm2 undercut area in it
 * @param depthMm how far the mold or the part must spring there, see {@link Demold}; infinite if no way out was found
 */
public record LockedRegion(Place at, double areaMm2, double depthMm) {

    /** The same with places in another frame. */
    LockedRegion in(Isometry frame) {
        return new LockedRegion(frame.apply(at), areaMm2, depthMm);
    }
}
