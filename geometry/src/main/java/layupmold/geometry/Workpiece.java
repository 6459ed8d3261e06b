package layupmold.geometry;

import layupmold.geometry.mesh.TriangleMesh;

/**
 * The part that a mold was made for, in the mold's frame.
 *
 * @param part the posted mesh after cleaning
 * @param face its kept face, triangles facing the finished part's outside
 */
public record Workpiece(TriangleMesh part, TriangleMesh face) {
}
