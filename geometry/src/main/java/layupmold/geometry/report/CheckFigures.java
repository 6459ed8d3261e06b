package layupmold.geometry.report;

/**
 * The checks that the finished solid passed, with their figures. A mold that fails one is never handed out.
 *
 * @param boundaryEdges edges with one triangle (0 = closed)
 * @param nonManifoldEdges edges not shared by exactly two triangles of opposite direction
 * @param nonManifoldVertices vertices where separate fans meet
 * @param components connected pieces
 * @param intersectingPairs pairs of triangles that cross
 */
public record CheckFigures(
        int boundaryEdges, int nonManifoldEdges, int nonManifoldVertices, int components, int intersectingPairs) {

    public boolean passed() {
        return boundaryEdges == 0 && nonManifoldEdges == 0 && nonManifoldVertices == 0 && components == 1
                && intersectingPairs == 0;
    }
}
