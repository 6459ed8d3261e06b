package layupmold.geometry.render;

import org.joml.Vector3d;

/**
 * A numbered ring at a place in the scene; dashed where something stands in front of the place.
 *
 * @param place mm, in the frame of the scene's meshes
 * @param label one or two characters
 */
public record Marker(Vector3d place, String label) {
}
