package layupmold.geometry.inspect;

import org.joml.Vector3d;

/**
 * A connected piece of wall thinner than the limit.
 *
 * @param at where it is thinnest, on the surface, mold frame, mm
 * @param areaMm2 area of the wall, measured as half the surface on both its sides
 * @param leastMm least thickness
 */
public record ThinRegion(Vector3d at, double areaMm2, double leastMm) {
}
