package layupmold.geometry.drape;

import java.util.Arrays;
import java.util.stream.IntStream;
import layupmold.geometry.MoldOutcome;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.prepare.SheetCleaner;
import org.joml.Vector3d;

/**
 * The capped tool surface as cloth meets it: an open sheet in the mold's frame, z along the pull, fronts towards the
 * cloth, together with the adjacency and normals that every walk over it needs.
 */
public final class ToolSheet {

    /** Triangles lower than this say nothing to cloth, and their directions are noise. */
    private static final double SLIVER_MM = 0.02;

    private final TriangleMesh mesh;
    private final boolean[] cap;
    private final TriangleMesh trimmed;
    private final int slitFrom;
    private final EdgeTopology topology;
    private final double[] normals;
    private final double area;
    /** Built when first asked for: a sheet that is only walked over needs none. */
    private TriangleBvh bvh;

    private ToolSheet(TriangleMesh mesh, boolean[] cap, TriangleMesh trimmed, int slitFrom) {
        this.mesh = mesh;
        this.cap = cap;
        this.slitFrom = slitFrom;
        this.trimmed = trimmed;
        this.topology = EdgeTopology.of(mesh);
        this.normals = mesh.unitNormals();
        this.area = mesh.area();
    }

    /** A sheet without capped openings. O(n). */
    public static ToolSheet of(TriangleMesh sheet) {
        return new ToolSheet(sheet, new boolean[sheet.triangleCount()], sheet, sheet.vertexCount());
    }

    /**
     * @param sheet capped tool surface
     * @param cap for each triangle, whether it caps an opening and will be cut out after demolding
     */
    public static ToolSheet of(TriangleMesh sheet, boolean[] cap) {
        return of(sheet, cap, sheet.vertexCount());
    }

    private static ToolSheet of(TriangleMesh sheet, boolean[] cap, int slitFrom) {
        int[] kept = new int[sheet.triangles().length];
        int size = 0;
        for (int t = 0; t < cap.length; t++) {
            if (!cap[t]) {
                System.arraycopy(sheet.triangles(), 3 * t, kept, size, 3);
                size += 3;
            }
        }
        return new ToolSheet(sheet, cap.clone(), new TriangleMesh(sheet.xyz(), Arrays.copyOf(kept, size)), slitFrom);
    }

    /** This sheet cut open; all vertices that it has more lie on the cut. */
    ToolSheet slit(TriangleMesh open, boolean[] capOfOpen) {
        return of(open, capOfOpen, slitFrom);
    }

    /**
     * The tool surface and its caps as they lie in a finished mold, openings with core plugs closed as if capped. O(n)
     * without plugs.
     *
     * @throws layupmold.geometry.finding.Rejection if the opening under a plug cannot be closed
     */
    public static ToolSheet of(MoldOutcome.Mold mold) {
        int[] all = mold.solid().triangles();
        int[] vertexOf = new int[mold.solid().vertexCount()];
        Arrays.fill(vertexOf, -1);
        int[] triangles = new int[all.length];
        double[] xyz = new double[mold.solid().xyz().length];
        boolean[] cap = new boolean[all.length / 3];
        int vertices = 0;
        int count = 0;
        for (int t = 0; t < all.length / 3; t++) {
            MoldRegion region = MoldRegion.of(mold.regions()[t]);
            if (region != MoldRegion.TOOL && region != MoldRegion.CAP) {
                continue;
            }
            cap[count] = region == MoldRegion.CAP;
            for (int k = 0; k < 3; k++) {
                int v = all[3 * t + k];
                if (vertexOf[v] < 0) {
                    System.arraycopy(mold.solid().xyz(), 3 * v, xyz, 3 * vertices, 3);
                    vertexOf[v] = vertices++;
                }
                triangles[3 * count + k] = vertexOf[v];
            }
            count++;
        }
        TriangleMesh sheet = new TriangleMesh(Arrays.copyOf(xyz, 3 * vertices), Arrays.copyOf(triangles, 3 * count));
        boolean[] besidePlug = besidePlugs(mold, vertexOf, vertices);
        if (IntStream.range(0, vertices).anyMatch(v -> besidePlug[v])) {
            sheet = PlugCover.over(sheet, besidePlug);
            cap = Arrays.copyOf(cap, sheet.triangleCount());
            Arrays.fill(cap, count, cap.length, true);
        }
        SheetCleaner.Cleaned clean = SheetCleaner.withoutSlivers(sheet, SLIVER_MM);
        boolean[] capLeft = new boolean[clean.source().length];
        for (int t = 0; t < capLeft.length; t++) {
            capLeft[t] = cap[clean.source()[t]];
        }
        return of(clean.mesh(), capLeft);
    }

    private static boolean[] besidePlugs(MoldOutcome.Mold mold, int[] vertexOf, int vertices) {
        boolean[] beside = new boolean[vertices];
        for (int i = 0; i < mold.solid().triangles().length; i++) {
            int v = vertexOf[mold.solid().triangles()[i]];
            if (mold.regions()[i / 3] == MoldRegion.PLUG.ordinal() && v >= 0) {
                beside[v] = true;
            }
        }
        return beside;
    }

    public TriangleMesh mesh() {
        return mesh;
    }

    /** The sheet without its caps, on the same vertices: what remains of the part after trimming. */
    public TriangleMesh trimmed() {
        return trimmed;
    }

    /** Whether a vertex lies on a side of a slit. */
    boolean isOnSlit(int vertex) {
        return vertex >= slitFrom;
    }

    /** Whether a triangle caps an opening. */
    boolean isCap(int triangle) {
        return cap[triangle];
    }

    public double areaMm2() {
        return area;
    }

    EdgeTopology topology() {
        return topology;
    }

    /** Unit normals, three a triangle. */
    double[] normals() {
        return normals;
    }

    Vector3d normal(int triangle) {
        return new Vector3d(normals[3 * triangle], normals[3 * triangle + 1], normals[3 * triangle + 2]);
    }

    synchronized TriangleBvh bvh() {
        if (bvh == null) {
            bvh = TriangleBvh.of(mesh);
        }
        return bvh;
    }
}
