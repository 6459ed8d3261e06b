package layupmold.api.report;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;

/**
 * What was posted, after reading and cleaning.
 *
 * @param format file format found by content
 * @param kind closed-shell, open-sheet or solid
 * @param triangles triangles as posted
 * @param vertices vertices after welding
 * @param sizeMm extent along the posted axes
 * @param areaMm2 surface area
 * @param components connected pieces; only the largest is used
 * @param weldedVertices vertices merged with another
 * @param droppedTriangles degenerate or duplicate triangles removed
 * @param flippedTriangles triangles turned to agree with their neighbours
 */
@Serdeable
public record PartReport(
        String format,
        String kind,
        Integer triangles,
        Integer vertices,
        List<Double> sizeMm,
        Double areaMm2,
        Integer components,
        Integer weldedVertices,
        Integer droppedTriangles,
        Integer flippedTriangles) {
}
