package layupmold.geometry.inspect;

import org.joml.Vector3d;

/**
 * A connected piece of undercut.
 *
 * @param at where it is deepest, mold frame, mm
 * @param areaMm2 undercut area in it
 * @param depthMm how far the mold or the part must spring there, see {@link Demold}; infinite if no way out was found
 */
public record LockedRegion(Vector3d at, double areaMm2, double depthMm) {
}
