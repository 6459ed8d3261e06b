package layupmold.geometry.drape;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * A sheet cut open along a seam, so that no thread crosses it. Vertices of the sheet keep their numbers, and so does
 * every triangle or one piece of it.
 *
 * @param sheet cut open
 * @param left vertices from the tip to the edge on the seam's left side, seen from the front
 * @param right the same on its right side
 * @param pieces for each triangle that was cut, what it became
 */
record SlitSheet(ToolSheet sheet, int[] left, int[] right, Map<Integer, List<Integer>> pieces) {

    /** O(n). */
    static SlitSheet cut(ToolSheet sheet, Seam seam) {
        return new Cutter(sheet, seam).run();
    }

    /** The triangle of the cut sheet that holds a point of triangle {@code t} of the whole one. */
    int triangleAt(int t, double[] p) {
        int best = t;
        double most = Double.NEGATIVE_INFINITY;
        for (int piece : pieces.getOrDefault(t, List.of())) {
            double inside = inside(piece, p);
            if (inside > most) {
                most = inside;
                best = piece;
            }
        }
        return best;
    }

    /** Least distance to the lines through the triangle's sides, positive inside. */
    private double inside(int t, double[] p) {
        double[] xyz = sheet.mesh().xyz();
        double[] n = sheet.normals();
        double least = Double.POSITIVE_INFINITY;
        for (int h = 3 * t; h < 3 * t + 3; h++) {
            int a = 3 * sheet.topology().from(h);
            int b = 3 * sheet.topology().to(h);
            double ex = xyz[b] - xyz[a];
            double ey = xyz[b + 1] - xyz[a + 1];
            double ez = xyz[b + 2] - xyz[a + 2];
            double wx = p[0] - xyz[a];
            double wy = p[1] - xyz[a + 1];
            double wz = p[2] - xyz[a + 2];
            double across = n[3 * t] * (ey * wz - ez * wy) + n[3 * t + 1] * (ez * wx - ex * wz)
                    + n[3 * t + 2] * (ex * wy - ey * wx);
            least = Math.min(least, across / Math.sqrt(ex * ex + ey * ey + ez * ez));
        }
        return least;
    }

    private static final class Cutter {
        private final ToolSheet sheet;
        private final Seam seam;
        private final int[] left;
        private final int[] right;
        private final double[] xyz;
        private int[] triangles;
        private boolean[] cap;
        private int count;
        private final Map<Integer, List<Integer>> pieces = new HashMap<>();

        Cutter(ToolSheet sheet, Seam seam) {
            this.sheet = sheet;
            this.seam = seam;
            int n = sheet.mesh().vertexCount();
            int crossings = seam.exits().length;
            this.count = sheet.mesh().triangleCount();
            this.triangles = Arrays.copyOf(sheet.mesh().triangles(), 3 * (count + 2 * crossings + 1));
            this.cap = new boolean[count + 2 * crossings + 1];
            for (int t = 0; t < count; t++) {
                cap[t] = sheet.isCap(t);
            }
            this.xyz = Arrays.copyOf(sheet.mesh().xyz(), 3 * (n + 1 + 2 * crossings));
            System.arraycopy(seam.tip(), 0, xyz, 3 * n, 3);
            this.left = new int[crossings + 1];
            this.right = new int[crossings + 1];
            left[0] = n;
            right[0] = n;
            for (int k = 1; k <= crossings; k++) {
                left[k] = n + 2 * k - 1;
                right[k] = n + 2 * k;
                System.arraycopy(seam.crossings(), 3 * (k - 1), xyz, 3 * left[k], 3);
                System.arraycopy(seam.crossings(), 3 * (k - 1), xyz, 3 * right[k], 3);
            }
        }

        SlitSheet run() {
            openFirst();
            for (int k = 1; k < seam.exits().length; k++) {
                open(k);
            }
            ToolSheet open = sheet.slit(new TriangleMesh(xyz, Arrays.copyOf(triangles, 3 * count)),
                    Arrays.copyOf(cap, count));
            return new SlitSheet(open, left, right, pieces);
        }

        private void openFirst() {
            int h = seam.exits()[0];
            int a = sheet.topology().from(h);
            int b = sheet.topology().to(h);
            int c = sheet.topology().to(EdgeTopology.next(h));
            int tip = left[0];
            put(h / 3, tip, a, right[1]);
            put(h / 3, tip, left[1], b);
            put(h / 3, tip, b, c);
            put(h / 3, tip, c, a);
        }

        /** The triangle between crossings k and k + 1: a corner is cut off on one side, a quad left on the other. */
        private void open(int k) {
            int entry = sheet.topology().twin(seam.exits()[k - 1]);
            int exit = seam.exits()[k];
            int t = exit / 3;
            int l = sheet.topology().from(entry);
            int r = sheet.topology().to(entry);
            int c = sheet.topology().to(EdgeTopology.next(entry));
            if (exit == EdgeTopology.next(entry)) {
                put(t, right[k], r, right[k + 1]);
                put(t, l, left[k], left[k + 1]);
                put(t, l, left[k + 1], c);
            } else {
                put(t, l, left[k], left[k + 1]);
                put(t, right[k], r, c);
                put(t, right[k], c, right[k + 1]);
            }
        }

        private void put(int t, int a, int b, int c) {
            List<Integer> made = pieces.computeIfAbsent(t, key -> new ArrayList<>());
            int into = made.isEmpty() ? t : count++;
            triangles[3 * into] = a;
            triangles[3 * into + 1] = b;
            triangles[3 * into + 2] = c;
            cap[into] = cap[t];
            made.add(into);
        }
    }
}
