package layupmold.geometry.shape;

import org.joml.Vector3d;

/**
 * A bowl, mouth down: a flat core (a point, a segment or a rectangle) from whose edge a {@link Profile} runs out and
 * down in all directions. A circle around a point is a sphere, a straight slope a cone, an arc around a segment a half
 * capsule, an arc and a wall around a rectangle a tray with rounded corners. Tangent-continuous where the profile
 * starts level. The parameters are plan coordinates before folding: distance from the core is arc length along the profile.
 *
 * @param halfLengthMm half the core's extent along x
 * @param halfWidthMm half its extent along y
 * @param profile the section outside the core
 */
public record Bowl(double halfLengthMm, double halfWidthMm, Profile profile) implements Surface {

    @Override
    public Vector3d at(double u, double v) {
        double coreX = Math.max(-halfLengthMm, Math.min(halfLengthMm, u));
        double coreY = Math.max(-halfWidthMm, Math.min(halfWidthMm, v));
        double dx = u - coreX;
        double dy = v - coreY;
        double distance = StrictMath.hypot(dx, dy);
        if (distance == 0) {
            return new Vector3d(u, v, 0);
        }
        double[] section = new double[2];
        profile.at(distance, section);
        double scale = section[0] / distance;
        return new Vector3d(coreX + dx * scale, coreY + dy * scale, section[1]);
    }
}
