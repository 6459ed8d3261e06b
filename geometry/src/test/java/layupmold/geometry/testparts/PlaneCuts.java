package layupmold.geometry.testparts;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;
import org.joml.Vector4d;

/**
 * Cuts a mesh along planes, as a saw or a boolean does: new corners lie wherever a plane meets an edge, so that what is
 * left has a border of long and tiny edges in any order.
 */
public final class PlaneCuts {

    private final List<Vector3d> points = new ArrayList<>();
    private final Map<Long, Integer> onEdge = new HashMap<>();

    private PlaneCuts(TriangleMesh mesh) {
        for (int v = 0; v < mesh.vertexCount(); v++) {
            points.add(mesh.vertex(v));
        }
    }

    /**
     * @param planes x, y, z of the normal and distance: points lie on it whose product with the normal is the distance
     * @param kept of the pieces' middles
     */
    public static TriangleMesh cut(TriangleMesh mesh, List<Vector4d> planes, Predicate<Vector3d> kept) {
        PlaneCuts cuts = new PlaneCuts(mesh);
        List<int[]> pieces = new ArrayList<>();
        for (int t = 0; t < mesh.triangleCount(); t++) {
            pieces.add(Arrays.copyOfRange(mesh.triangles(), 3 * t, 3 * t + 3));
        }
        for (Vector4d plane : planes) {
            cuts.onEdge.clear();
            List<int[]> halves = new ArrayList<>();
            for (int[] piece : pieces) {
                cuts.addHalf(piece, plane, 1, halves);
                cuts.addHalf(piece, plane, -1, halves);
            }
            pieces = halves;
        }
        return cuts.mesh(pieces, kept);
    }

    private void addHalf(int[] piece, Vector4d plane, int side, List<int[]> halves) {
        List<Integer> half = new ArrayList<>();
        for (int i = 0; i < piece.length; i++) {
            int a = piece[i];
            int b = piece[(i + 1) % piece.length];
            if (side * height(a, plane) >= 0) {
                half.add(a);
            }
            if (height(a, plane) * height(b, plane) < 0) {
                half.add(crossing(Math.min(a, b), Math.max(a, b), plane));
            }
        }
        boolean hasArea = half.stream().anyMatch(v -> side * height(v, plane) > 1e-9);
        if (half.size() >= 3 && hasArea) {
            halves.add(half.stream().mapToInt(Integer::intValue).toArray());
        }
    }

    /** Of a vertex over the plane; 0 for those that were cut on it. */
    private double height(int v, Vector4d plane) {
        Vector3d p = points.get(v);
        double height = plane.x * p.x + plane.y * p.y + plane.z * p.z - plane.w;
        return Math.abs(height) < 1e-9 ? 0 : height;
    }

    private int crossing(int a, int b, Vector4d plane) {
        return onEdge.computeIfAbsent((long) a << 32 | b, k -> {
            double share = height(a, plane) / (height(a, plane) - height(b, plane));
            points.add(new Vector3d(points.get(a)).lerp(points.get(b), share));
            return points.size() - 1;
        });
    }

    private TriangleMesh mesh(List<int[]> pieces, Predicate<Vector3d> kept) {
        Map<Integer, Integer> number = new HashMap<>();
        List<Integer> corners = new ArrayList<>();
        for (int[] piece : pieces) {
            Vector3d middle = new Vector3d();
            for (int v : piece) {
                middle.add(new Vector3d(points.get(v)).div(piece.length));
            }
            for (int i = 1; i + 1 < piece.length && kept.test(middle); i++) {
                for (int v : new int[] {piece[0], piece[i], piece[i + 1]}) {
                    corners.add(number.computeIfAbsent(v, k -> number.size()));
                }
            }
        }
        double[] xyz = new double[3 * number.size()];
        number.forEach((v, n) -> {
            xyz[3 * n] = points.get(v).x;
            xyz[3 * n + 1] = points.get(v).y;
            xyz[3 * n + 2] = points.get(v).z;
        });
        return new TriangleMesh(xyz, corners.stream().mapToInt(Integer::intValue).toArray());
    }
}
