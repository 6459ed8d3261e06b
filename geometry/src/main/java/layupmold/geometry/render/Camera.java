package layupmold.geometry.render;

import org.joml.Vector3d;

/**
 * From where a scene is seen. Position and zoom follow from the scene's extent.
 *
 * @param forward the way the camera looks, any length but zero
 * @param up what should point up in the picture; not parallel to {@code forward}
 * @param fieldOfViewDeg angle under which the scene's bounding sphere is seen, 0 (orthographic) to 90
 */
public record Camera(Vector3d forward, Vector3d up, double fieldOfViewDeg) {

    public Camera {
        forward = new Vector3d(forward);
        up = new Vector3d(up);
        if (!(fieldOfViewDeg >= 0 && fieldOfViewDeg <= 90)) {
            throw new IllegalArgumentException("field of view must lie in 0..90 degrees");
        }
        if (!(new Vector3d(forward).cross(up).length() > 1e-9 * forward.length() * up.length())) {
            throw new IllegalArgumentException("forward and up must not be parallel");
        }
    }

    /**
     * Looking at the scene's middle from a compass direction and a height, z up.
     *
     * @param azimuthDeg where the camera stands, counter-clockwise from +x seen from above
     * @param elevationDeg how high, above −90 and below 90
     */
    public static Camera from(double azimuthDeg, double elevationDeg) {
        double azimuth = Math.toRadians(azimuthDeg);
        double elevation = Math.toRadians(elevationDeg);
        Vector3d forward = new Vector3d(
                -Math.cos(azimuth) * Math.cos(elevation), -Math.sin(azimuth) * Math.cos(elevation), -Math.sin(elevation));
        return new Camera(forward, new Vector3d(0, 0, 1), 24);
    }

    /** The same view without perspective. */
    public Camera orthographic() {
        return new Camera(forward, up, 0);
    }
}
