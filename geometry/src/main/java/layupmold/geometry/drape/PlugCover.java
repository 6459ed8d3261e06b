package layupmold.geometry.drape;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.opening.OpeningCapper;

/**
 * Lays a patch over each opening in which a core plug stands, as a cap would lie there: a net needs threads across to go
 * on behind the plug, and the cloth is cut out there like over a cap.
 */
final class PlugCover {

    private PlugCover() {
    }

    /**
     * @param sheet tool surface and caps
     * @param besidePlug for each of its vertices, whether a plug stands on it
     * @return the sheet's triangles, then the patches'
     * @throws layupmold.geometry.finding.Rejection if an opening cannot be closed
     */
    static TriangleMesh over(TriangleMesh sheet, boolean[] besidePlug) {
        EdgeTopology topology = EdgeTopology.of(sheet);
        List<int[]> openings = new ArrayList<>();
        int[] perimeter = null;
        for (int[] loop : topology.boundaryLoops()) {
            if (Arrays.stream(loop).allMatch(h -> besidePlug[topology.from(h)])) {
                openings.add(loop);
            } else {
                perimeter = loop;
            }
        }
        return OpeningCapper.cap(sheet, topology, openings, perimeter).mesh();
    }
}
