package layupmold.geometry.render;

import layupmold.geometry.mesh.TriangleMesh;

/**
 * A mesh in a scene. Both sides of its triangles are drawn; the side that faces away from its winding is drawn in a
 * duller shade, so that an open sheet shows which side is its front.
 *
 * @param mesh mm; vertices should be shared between triangles, or every edge counts as a crease
 * @param paint its colours
 */
public record Item(TriangleMesh mesh, Paint paint) {
    public Item {
        paint.requireFit(mesh.vertexCount(), mesh.triangleCount());
    }
}
