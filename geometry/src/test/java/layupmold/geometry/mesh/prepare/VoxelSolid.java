package layupmold.geometry.mesh.prepare;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * The surface of a set of unit cubes in a grid, with the number, areas and volumes of its pieces by digital topology:
 * material hangs together across faces, void across faces and edges, and each pair of a material region and a void
 * region that touch has one piece of surface between them (A. Rosenfeld, Three-dimensional digital topology, 1981).
 */
final class VoxelSolid {

    private final int n;
    private final boolean[] solid;
    private final int[] region;
    private int regions;

    /** @param solid {@code n}³ cells, x running fastest; the outermost layer must be void */
    VoxelSolid(int n, boolean[] solid) {
        this.n = n;
        this.solid = solid;
        this.region = new int[solid.length];
        Arrays.fill(region, -1);
        for (int cell = 0; cell < solid.length; cell++) {
            if (region[cell] < 0) {
                flood(cell);
            }
        }
    }

    private void flood(int seed) {
        ArrayDeque<Integer> queue = new ArrayDeque<>(List.of(seed));
        region[seed] = regions;
        while (!queue.isEmpty()) {
            int cell = queue.remove();
            for (int[] step : steps(solid[seed] ? 1 : 2)) {
                int other = neighbour(cell, step);
                if (other >= 0 && region[other] < 0 && solid[other] == solid[seed]) {
                    region[other] = regions;
                    queue.add(other);
                }
            }
        }
        regions++;
    }

    private static List<int[]> steps(int mostAxes) {
        List<int[]> steps = new ArrayList<>();
        for (int i = 0; i < 27; i++) {
            int[] step = {i % 3 - 1, i / 3 % 3 - 1, i / 9 - 1};
            int axes = Math.abs(step[0]) + Math.abs(step[1]) + Math.abs(step[2]);
            if (axes > 0 && axes <= mostAxes) {
                steps.add(step);
            }
        }
        return steps;
    }

    private int neighbour(int cell, int[] step) {
        int x = cell % n + step[0];
        int y = cell / n % n + step[1];
        int z = cell / n / n + step[2];
        boolean inside = x >= 0 && y >= 0 && z >= 0 && x < n && y < n && z < n;
        return inside ? x + n * (y + n * z) : -1;
    }

    /** Faces between each pair of regions: {@code faces[a][b]} for material a and void b. */
    private int[][] faces() {
        int[][] faces = new int[regions][regions];
        for (int cell = 0; cell < solid.length; cell++) {
            for (int[] step : steps(1)) {
                int other = neighbour(cell, step);
                if (solid[cell] && !solid[other]) {
                    faces[region[cell]][region[other]]++;
                }
            }
        }
        return faces;
    }

    int pieces() {
        return (int) Arrays.stream(faces()).flatMapToInt(Arrays::stream).filter(f -> f > 0).count();
    }

    /** Areas of the pieces, largest first. */
    int[] areas() {
        return Arrays.stream(faces()).flatMapToInt(Arrays::stream).filter(f -> f > 0).map(f -> -f).sorted()
                .map(f -> -f).toArray();
    }

    /** Volume that the piece with the most area encloses, whatever is in it. */
    int volumeOfLargest() {
        int[][] faces = faces();
        int bestA = 0;
        int bestB = 0;
        for (int a = 0; a < regions; a++) {
            for (int b = 0; b < regions; b++) {
                if (faces[a][b] > faces[bestA][bestB]) {
                    bestA = a;
                    bestB = b;
                }
            }
        }
        // Regions form a tree: without the one border, what the outside cannot reach is enclosed.
        boolean[] outside = new boolean[regions];
        ArrayDeque<Integer> queue = new ArrayDeque<>(List.of(region[0]));
        outside[region[0]] = true;
        while (!queue.isEmpty()) {
            int a = queue.remove();
            for (int b = 0; b < regions; b++) {
                boolean border = a == bestA && b == bestB || a == bestB && b == bestA;
                if (!outside[b] && !border && faces[a][b] + faces[b][a] > 0) {
                    outside[b] = true;
                    queue.add(b);
                }
            }
        }
        return (int) Arrays.stream(region).filter(r -> !outside[r]).count();
    }

    /** All pieces as one soup of triangles, two a face, facing out of the material. */
    TriangleMesh mesh() {
        List<Double> xyz = new ArrayList<>();
        for (int cell = 0; cell < solid.length; cell++) {
            for (int[] step : steps(1)) {
                if (solid[cell] && !solid[neighbour(cell, step)]) {
                    addFace(cell, step, xyz);
                }
            }
        }
        int[] triangles = new int[xyz.size() / 3];
        Arrays.setAll(triangles, i -> i);
        return new TriangleMesh(xyz.stream().mapToDouble(c -> c).toArray(), triangles);
    }

    private void addFace(int cell, int[] step, List<Double> xyz) {
        int axis = step[0] != 0 ? 0 : step[1] != 0 ? 1 : 2;
        double[] low = {cell % n, cell / n % n, cell / n / n};
        low[axis] += step[axis] > 0 ? 1 : 0;
        int u = (axis + 1) % 3;
        int v = (axis + 2) % 3;
        int[][] square = {{0, 0}, {1, 0}, {1, 1}, {0, 0}, {1, 1}, {0, 1}};
        for (int i = 0; i < 6; i++) {
            int[] corner = square[step[axis] > 0 ? i : 5 - i];
            double[] p = low.clone();
            p[u] += corner[0];
            p[v] += corner[1];
            xyz.add(10 * p[0]);
            xyz.add(10 * p[1]);
            xyz.add(10 * p[2]);
        }
    }
}
