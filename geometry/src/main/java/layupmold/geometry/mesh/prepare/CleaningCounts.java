package layupmold.geometry.mesh.prepare;

/**
 * What cleaning found and did.
 *
 * @param postedTriangles triangles in the file
 * @param postedVertices vertices in the file
 * @param weldedVertices vertices merged with another
 * @param degenerateTriangles triangles dropped because two corners coincide
 * @param duplicateTriangles triangles dropped because another has the same corners
 * @param flippedTriangles kept triangles turned around
 * @param components connected pieces
 * @param nonManifoldEdges edges with three triangles or more, taken apart
 * @param splitVertices vertices doubled where surfaces only touched
 * @param closedCracks vertices joined across a crack narrower than the coordinates' rounding
 * @param tJunctions edges split where a corner lay on them
 * @param removedSlivers triangles without height removed or reshaped
 * @param filledPinHoles tiny holes closed
 */
public record CleaningCounts(
        int postedTriangles,
        int postedVertices,
        int weldedVertices,
        int degenerateTriangles,
        int duplicateTriangles,
        int flippedTriangles,
        int components,
        int nonManifoldEdges,
        int splitVertices,
        int closedCracks,
        int tJunctions,
        int removedSlivers,
        int filledPinHoles) {
}
