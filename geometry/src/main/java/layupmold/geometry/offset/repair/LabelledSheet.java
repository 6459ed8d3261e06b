package layupmold.geometry.offset.repair;

import layupmold.geometry.mesh.TriangleMesh;

/**
 * A moved surface on its way to a sound one.
 *
 * @param mesh the surface
 * @param labels region of each triangle
 * @param given for each vertex the given one that moved there, or -1
 */
record LabelledSheet(TriangleMesh mesh, int[] labels, int[] given) {
}
