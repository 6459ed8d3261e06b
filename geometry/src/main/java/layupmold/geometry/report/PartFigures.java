package layupmold.geometry.report;

import org.joml.Vector3d;

/**
 * What was posted, after reading and cleaning.
 *
 * @param format file format found by content: "stl-binary", "stl-ascii", "obj", "ply-ascii", "ply-binary", "3mf"
 * @param kind "closed-shell", "open-sheet" or "solid"
 * @param triangles triangles as posted
 * @param vertices vertices after welding
 * @param sizeMm extent along the posted axes
 * @param areaMm2 surface area
 * @param components connected pieces; only the largest is used
 * @param weldedVertices vertices merged with another
 * @param droppedTriangles degenerate or duplicate triangles removed
 * @param flippedTriangles triangles turned to agree with their neighbours
 */
public record PartFigures(
        String format,
        String kind,
        int triangles,
        int vertices,
        Vector3d sizeMm,
        double areaMm2,
        int components,
        int weldedVertices,
        int droppedTriangles,
        int flippedTriangles) {
}
