package layupmold.api.report;

import io.micronaut.serde.annotation.Serdeable;

/**
 * The checks that the finished solid passed.
 *
 * @param boundaryEdges edges with one triangle
 * @param nonManifoldEdges edges not shared by exactly two triangles of opposite direction
 * @param nonManifoldVertices vertices where separate fans meet
 * @param components connected pieces
 * @param intersectingPairs pairs of triangles that cross
 */
@Serdeable
public record CheckReport(
        Integer boundaryEdges,
        Integer nonManifoldEdges,
        Integer nonManifoldVertices,
        Integer components,
        Integer intersectingPairs) {
}
