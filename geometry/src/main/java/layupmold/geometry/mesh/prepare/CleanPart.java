package layupmold.geometry.mesh.prepare;

import java.util.List;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.LengthUnit;
import org.joml.Vector3d;

/**
 * One connected, welded, consistently oriented surface in millimetres, in the posted mesh's own frame.
 *
 * <p>Promised: every edge joins at most two triangles, which agree in orientation; the triangles at a vertex form one
 * fan or disc (vertices where surfaces only touch are doubled, so positions may coincide); no triangle uses a vertex
 * twice; a closed surface faces outward (its volume is positive). Not promised: absence of self-intersection, or any
 * least angle or area.
 *
 * @param mesh the surface
 * @param topology its edges
 * @param postedTriangle for each triangle its index in the posted file, or -1 where a repair made it
 * @param closed true if it has no boundary
 * @param format file format, as in {@link layupmold.geometry.mesh.io.PartFile}
 * @param unit unit that the posted numbers were taken in
 * @param counts what cleaning did
 * @param others the pieces that were left out, largest first
 * @param findings what the maker should know
 */
public record CleanPart(
        TriangleMesh mesh,
        EdgeTopology topology,
        int[] postedTriangle,
        boolean closed,
        String format,
        LengthUnit unit,
        CleaningCounts counts,
        List<Piece> others,
        List<Finding> findings) {

    public CleanPart {
        others = List.copyOf(others);
        findings = List.copyOf(findings);
    }

    /** The middle of triangle {@code t}, with its index in the posted file. */
    public Place place(int t) {
        Vector3d middle = mesh.centroid(t);
        return new Place(middle.x, middle.y, middle.z, postedTriangle[t]);
    }
}
