package layupmold.geometry.opening;

import java.util.Arrays;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * The cotangent Laplacian K (Pinkall, Polthier 1993) and vertex areas M of a patch together with the face's triangles
 * around its loop: one row for each vertex of the patch, the loop's corners first.
 */
final class PatchLaplacian {

    /** Keeps weights positive on obtuse triangles, so that no vertex is thrown outside its neighbours. */
    private static final double LEAST_WEIGHT = 1e-3;
    private static final double MOST_COTANGENT = 20;

    final int loopCount;
    final int rowCount;
    /** Positions of patch vertices, then of face vertices around the loop, as they were on construction. */
    final double[] xyz;
    /** Area that belongs to a row's vertex. */
    final double[] area;
    /** Entries of row v besides the diagonal are at {@code rowStart[v]..rowStart[v+1]-1}. */
    int[] rowStart;
    int[] column;
    double[] weight;
    double[] diagonal;
    private final int[] triangles;

    PatchLaplacian(PatchMesh patch, TriangleMesh face, OpeningLoop loop) {
        this.loopCount = patch.loopCount;
        this.rowCount = patch.vertexCount;
        int[] outside = Arrays.stream(loop.fan).flatMap(t -> Arrays.stream(face.triangles(), 3 * t, 3 * t + 3))
                .sorted().distinct().toArray();
        int[] local = new int[outside.length];
        Arrays.fill(local, -1);
        for (int i = 0; i < loopCount; i++) {
            local[Arrays.binarySearch(outside, loop.vertices[i])] = i;
        }
        xyz = Arrays.copyOf(patch.xyz, 3 * (rowCount + outside.length));
        int count = rowCount;
        for (int i = 0; i < outside.length; i++) {
            if (local[i] < 0) {
                System.arraycopy(face.xyz(), 3 * outside[i], xyz, 3 * count, 3);
                local[i] = count++;
            }
        }
        int inside = 3 * patch.triangleCount;
        triangles = Arrays.copyOf(patch.origin, inside + 3 * loop.fan.length);
        int at = inside;
        for (int t : loop.fan) {
            for (int i = 0; i < 3; i++) {
                triangles[at++] = local[Arrays.binarySearch(outside, face.triangles()[3 * t + i])];
            }
        }
        area = new double[rowCount];
        assembleRows();
    }

    /** Laplacian rows of the patch's vertices, one entry a neighbour. */
    private void assembleRows() {
        int[] degree = new int[rowCount + 1];
        for (int v : triangles) {
            if (v < rowCount) {
                degree[v + 1] += 2;
            }
        }
        for (int v = 0; v < rowCount; v++) {
            degree[v + 1] += degree[v];
        }
        rowStart = degree;
        column = new int[degree[rowCount]];
        weight = new double[degree[rowCount]];
        diagonal = new double[rowCount];
        int[] fill = new int[rowCount];
        for (int t = 0; t < triangles.length; t += 3) {
            double third = Triangles.area(xyz, triangles[t], triangles[t + 1], triangles[t + 2]) / 3;
            for (int i = 0; i < 3; i++) {
                int p = triangles[t + i];
                int a = triangles[t + (i + 1) % 3];
                int b = triangles[t + (i + 2) % 3];
                double cotangent = Triangles.cotangent(xyz, p, a, b);
                double half = Double.isNaN(cotangent) ? 0
                        : Math.max(-MOST_COTANGENT, Math.min(MOST_COTANGENT, cotangent)) / 2;
                add(a, b, half, fill);
                add(b, a, half, fill);
                if (p < rowCount) {
                    area[p] += third;
                }
            }
        }
        compact(fill);
        double mean = Arrays.stream(area).sum() / rowCount;
        for (int v = 0; v < rowCount; v++) {
            area[v] = Math.max(area[v], 1e-3 * mean);
        }
    }

    private void add(int row, int col, double w, int[] fill) {
        if (row >= rowCount) {
            return;
        }
        int from = rowStart[row];
        int i = from;
        while (i < from + fill[row] && column[i] != col) {
            i++;
        }
        if (i == from + fill[row]) {
            column[i] = col;
            fill[row]++;
        }
        weight[i] += w;
    }

    private void compact(int[] fill) {
        int size = 0;
        for (int v = 0; v < rowCount; v++) {
            int from = rowStart[v];
            rowStart[v] = size;
            for (int i = from; i < from + fill[v]; i++) {
                column[size] = column[i];
                weight[size] = Math.max(LEAST_WEIGHT, weight[i]);
                diagonal[v] -= weight[size++];
            }
        }
        rowStart[rowCount] = size;
    }

    /** Kx by row as it is with true cotangents, whatever the slivers: minus the gradient of area. */
    double[] exact() {
        double[] kx = new double[3 * rowCount];
        double[] n = new double[3];
        for (int t = 0; t < triangles.length; t += 3) {
            Triangles.normal(xyz, triangles[t], triangles[t + 1], triangles[t + 2], n, 0);
            double twice = 2 * Triangles.length(n, 0);
            for (int i = 0; i < 3 && twice > 0; i++) {
                int p = 3 * triangles[t + i];
                int a = 3 * triangles[t + (i + 1) % 3];
                int b = 3 * triangles[t + (i + 2) % 3];
                for (int k = 0; k < 3 && p < kx.length; k++) {
                    int u = (k + 1) % 3;
                    int w = (k + 2) % 3;
                    kx[p + k] -= (n[u] * (xyz[b + w] - xyz[a + w]) - n[w] * (xyz[b + u] - xyz[a + u])) / twice;
                }
            }
        }
        return kx;
    }

    /** How much farther Kx is from 0 by row than with true cotangents. */
    double[] bentByWeights() {
        double[] bent = exact();
        for (int v = 0; v < rowCount; v++) {
            addScaled(bent, 3 * v, -2, bent, 3 * v);
            addScaled(bent, 3 * v, diagonal[v], xyz, 3 * v);
            for (int i = rowStart[v]; i < rowStart[v + 1]; i++) {
                addScaled(bent, 3 * v, weight[i], xyz, 3 * column[i]);
            }
        }
        return bent;
    }

    /** What the held vertices contribute to each row of Kx. */
    double[] heldPart() {
        double[] held = new double[3 * rowCount];
        for (int v = 0; v < rowCount; v++) {
            if (v < loopCount) {
                addScaled(held, 3 * v, diagonal[v], xyz, 3 * v);
            }
            for (int i = rowStart[v]; i < rowStart[v + 1]; i++) {
                if (column[i] < loopCount || column[i] >= rowCount) {
                    addScaled(held, 3 * v, weight[i], xyz, 3 * column[i]);
                }
            }
        }
        return held;
    }

    /** Unit normals, area weighted, by row. */
    double[] rowNormals() {
        double[] normals = new double[3 * rowCount];
        double[] normal = new double[3];
        for (int t = 0; t < triangles.length; t += 3) {
            Triangles.normal(xyz, triangles[t], triangles[t + 1], triangles[t + 2], normal, 0);
            for (int i = 0; i < 3; i++) {
                if (triangles[t + i] < rowCount) {
                    addScaled(normals, 3 * triangles[t + i], 1, normal, 0);
                }
            }
        }
        for (int v = 0; v < normals.length; v += 3) {
            double length = Triangles.length(normals, v);
            for (int k = 0; k < 3 && length > 0; k++) {
                normals[v + k] /= length;
            }
        }
        return normals;
    }

    static void addScaled(double[] to, int i, double factor, double[] from, int j) {
        to[i] += factor * from[j];
        to[i + 1] += factor * from[j + 1];
        to[i + 2] += factor * from[j + 2];
    }
}
