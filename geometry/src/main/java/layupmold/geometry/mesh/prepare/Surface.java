package layupmold.geometry.mesh.prepare;

import java.util.Arrays;

/**
 * A mesh between two cleaning steps.
 *
 * @param xyz positions, mm
 * @param triangles vertex indices
 * @param posted for each triangle its index in the posted file, or -1
 */
record Surface(double[] xyz, int[] triangles, int[] posted) {

    int vertexCount() {
        return xyz.length / 3;
    }

    int triangleCount() {
        return posted.length;
    }

    /** The triangles for which {@code keep} holds, in order; vertices stay as they are. */
    Surface keeping(boolean[] keep) {
        int count = 0;
        for (boolean k : keep) {
            count += k ? 1 : 0;
        }
        int[] keptTriangles = new int[3 * count];
        int[] keptPosted = new int[count];
        int at = 0;
        for (int t = 0; t < keep.length; t++) {
            if (keep[t]) {
                System.arraycopy(triangles, 3 * t, keptTriangles, 3 * at, 3);
                keptPosted[at++] = posted[t];
            }
        }
        return new Surface(xyz, keptTriangles, keptPosted);
    }

    /** Without the vertices that no triangle uses; the others keep their order. */
    Surface compact() {
        int[] number = new int[vertexCount()];
        for (int v : triangles) {
            number[v] = 1;
        }
        double[] used = new double[xyz.length];
        int count = 0;
        for (int v = 0; v < number.length; v++) {
            if (number[v] == 1) {
                System.arraycopy(xyz, 3 * v, used, 3 * count, 3);
                number[v] = count++;
            }
        }
        if (count == number.length) {
            return this;
        }
        int[] renumbered = new int[triangles.length];
        for (int i = 0; i < renumbered.length; i++) {
            renumbered[i] = number[triangles[i]];
        }
        return new Surface(Arrays.copyOf(used, 3 * count), renumbered, posted);
    }

    /** Twice the area of triangle {@code t}, mm². */
    double twiceArea(int t) {
        int a = 3 * triangles[3 * t];
        int b = 3 * triangles[3 * t + 1];
        int c = 3 * triangles[3 * t + 2];
        double ux = xyz[b] - xyz[a];
        double uy = xyz[b + 1] - xyz[a + 1];
        double uz = xyz[b + 2] - xyz[a + 2];
        double vx = xyz[c] - xyz[a];
        double vy = xyz[c + 1] - xyz[a + 1];
        double vz = xyz[c + 2] - xyz[a + 2];
        double nx = uy * vz - uz * vy;
        double ny = uz * vx - ux * vz;
        double nz = ux * vy - uy * vx;
        return Math.sqrt(nx * nx + ny * ny + nz * nz);
    }
}
