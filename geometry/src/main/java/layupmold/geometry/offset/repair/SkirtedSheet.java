package layupmold.geometry.offset.repair;

import java.util.Arrays;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;

/**
 * A sheet continued beyond its perimeter, tangentially, by a narrow skirt: the offset of the perimeter itself then lies
 * inside a surface, where a distance field knows what it is.
 *
 * @param mesh the sheet's vertices and triangles first, then the skirt's
 * @param faceTriangles number of the sheet's triangles
 * @param sides side of the seam of every vertex
 */
record SkirtedSheet(TriangleMesh mesh, int faceTriangles, byte[] sides) {

    private static final int NARROWINGS = 40;
    private static final double NARROWING = 0.8;
    /** Outer edges keep at least this share of the inner edge's length. */
    private static final double LEAST_OUTER_EDGE = 0.3;

    /** @param perimeter vertices of the sheet's boundary, the sheet on the left */
    static SkirtedSheet of(TriangleMesh sheet, EdgeTopology topology, int[] perimeter, double widthMm) {
        int n = perimeter.length;
        int[] halfEdges = boundaryHalfEdges(topology, perimeter);
        Vector3d[] outward = new Vector3d[n];
        for (int i = 0; i < n; i++) {
            int h = halfEdges[i];
            Vector3d along = sheet.vertex(topology.to(h)).sub(sheet.vertex(topology.from(h)));
            outward[i] = along.cross(sheet.areaNormal(h / 3));
            if (outward[i].lengthSquared() > 0) {
                outward[i].normalize();
            }
        }
        Vector3d[] directions = new Vector3d[n];
        for (int i = 0; i < n; i++) {
            directions[i] = new Vector3d(outward[(i + n - 1) % n]).add(outward[i]);
            if (directions[i].lengthSquared() < 1e-6) {
                directions[i].set(outward[i]);
            }
            directions[i].normalize();
        }
        return assemble(sheet, perimeter, directions, widths(sheet, perimeter, directions, widthMm));
    }

    /** Narrows the skirt where the perimeter is hollow and its quads would turn over. */
    private static double[] widths(TriangleMesh sheet, int[] perimeter, Vector3d[] directions, double widthMm) {
        int n = perimeter.length;
        double[] widths = new double[n];
        Arrays.fill(widths, widthMm);
        boolean changed = true;
        for (int round = 0; round < NARROWINGS && changed; round++) {
            changed = false;
            for (int i = 0; i < n; i++) {
                int k = (i + 1) % n;
                Vector3d a = sheet.vertex(perimeter[i]);
                Vector3d b = sheet.vertex(perimeter[k]);
                Vector3d inner = new Vector3d(b).sub(a);
                Vector3d outer = b.fma(widths[k], directions[k]).sub(a.fma(widths[i], directions[i]));
                if (outer.dot(inner) < LEAST_OUTER_EDGE * inner.lengthSquared()) {
                    widths[i] *= NARROWING;
                    widths[k] *= NARROWING;
                    changed = true;
                }
            }
        }
        return widths;
    }

    private static SkirtedSheet assemble(
            TriangleMesh sheet, int[] perimeter, Vector3d[] directions, double[] widths) {
        int n = perimeter.length;
        int first = sheet.vertexCount();
        double[] xyz = Arrays.copyOf(sheet.xyz(), 3 * (first + n));
        int[] triangles = Arrays.copyOf(sheet.triangles(), sheet.triangles().length + 6 * n);
        byte[] sides = new byte[first + n];
        Arrays.fill(sides, 0, first, PatchMesh.FACE);
        Arrays.fill(sides, first, first + n, PatchMesh.SKIRT);
        int t = sheet.triangles().length;
        for (int i = 0; i < n; i++) {
            int next = (i + 1) % n;
            Vector3d tip = sheet.vertex(perimeter[i]).fma(widths[i], directions[i]);
            xyz[3 * (first + i)] = tip.x;
            xyz[3 * (first + i) + 1] = tip.y;
            xyz[3 * (first + i) + 2] = tip.z;
            sides[perimeter[i]] = PatchMesh.SEAM;
            int[] quad = {perimeter[next], perimeter[i], first + i, perimeter[next], first + i, first + next};
            System.arraycopy(quad, 0, triangles, t, 6);
            t += 6;
        }
        return new SkirtedSheet(new TriangleMesh(xyz, triangles), sheet.triangleCount(), sides);
    }

    private static int[] boundaryHalfEdges(EdgeTopology topology, int[] perimeter) {
        for (int[] loop : topology.boundaryLoops()) {
            for (int i = 0; i < loop.length; i++) {
                if (topology.from(loop[i]) == perimeter[0] && loop.length == perimeter.length) {
                    int[] turned = new int[loop.length];
                    for (int k = 0; k < loop.length; k++) {
                        turned[k] = loop[(i + k) % loop.length];
                    }
                    return turned;
                }
            }
        }
        throw new IllegalArgumentException("the perimeter is not a boundary loop of the sheet");
    }
}
