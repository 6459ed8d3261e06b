package layupmold.geometry.plug;

import java.util.Arrays;
import java.util.List;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.mesh.LabelledMeshBuilder;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.offset.OffsetSurface;

/**
 * The tool surface without the patches under plugs, and the plugs after it.
 *
 * @param mesh without vertices that nothing uses
 * @param regions of its triangles; patches that keep no plug are caps
 * @param outline as the tool surface's
 */
record PluggedSheet(TriangleMesh mesh, byte[] regions, int[] outline) {

    /** O(n). */
    static PluggedSheet of(OffsetSurface tool, List<CorePlug> plugs) {
        byte[] labels = tool.regions().clone();
        boolean[] gone = new boolean[labels.length];
        for (int t = 0; t < labels.length; t++) {
            labels[t] = (byte) (labels[t] == MoldRegion.PLUG.ordinal() ? MoldRegion.CAP.ordinal() : labels[t]);
        }
        for (CorePlug plug : plugs) {
            for (int t : plug.foot().triangles()) {
                gone[t] = true;
            }
        }
        int[] vertexOf = new int[tool.mesh().vertexCount()];
        LabelledMeshBuilder sheet = kept(tool.mesh(), labels, gone, vertexOf);
        for (CorePlug plug : plugs) {
            add(plug, vertexOf, sheet);
        }
        return new PluggedSheet(sheet.mesh(), sheet.labels(),
                Arrays.stream(tool.outline()).map(v -> vertexOf[v]).toArray());
    }

    private static LabelledMeshBuilder kept(TriangleMesh mesh, byte[] labels, boolean[] gone, int[] vertexOf) {
        Arrays.fill(vertexOf, -1);
        LabelledMeshBuilder sheet =
                new LabelledMeshBuilder(new TriangleMesh(new double[0], new int[0]), new byte[0]);
        double[] xyz = mesh.xyz();
        int[] corners = mesh.triangles();
        for (int t = 0; t < labels.length; t++) {
            if (gone[t]) {
                continue;
            }
            for (int i = 3 * t; i < 3 * t + 3; i++) {
                int v = corners[i];
                if (vertexOf[v] < 0) {
                    vertexOf[v] = sheet.addVertex(xyz[3 * v], xyz[3 * v + 1], xyz[3 * v + 2]);
                }
            }
            sheet.addTriangle(vertexOf[corners[3 * t]], vertexOf[corners[3 * t + 1]], vertexOf[corners[3 * t + 2]],
                    labels[t]);
        }
        return sheet;
    }

    private static void add(CorePlug plug, int[] vertexOf, LabelledMeshBuilder sheet) {
        int[] foot = plug.foot().loop();
        int n = foot.length;
        int[] vertices = new int[n + plug.xyz().length / 3];
        for (int i = 0; i < vertices.length; i++) {
            int j = 3 * (i - n);
            vertices[i] = i < n ? vertexOf[foot[i]]
                    : sheet.addVertex(plug.xyz()[j], plug.xyz()[j + 1], plug.xyz()[j + 2]);
        }
        for (int i = 0; i < plug.triangles().length; i += 3) {
            sheet.addTriangle(vertices[plug.triangles()[i]], vertices[plug.triangles()[i + 1]],
                    vertices[plug.triangles()[i + 2]],
                    (byte) (i < 3 * plug.ledge() ? MoldRegion.CAP : MoldRegion.PLUG).ordinal());
        }
    }
}
