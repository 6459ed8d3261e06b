package layupmold.geometry.mesh;

import java.util.Arrays;

/** What a dynamic program over a polygon's diagonals found, read back as triangles. */
public final class PolygonSplits {

    private PolygonSplits() {
    }

    /**
     * O(n).
     *
     * @param n corners of the polygon
     * @param middle for corners i and k, joined by a diagonal or side, at {@code i * n + k} the corner between them that
     *     makes a triangle with them; only read where k is not next to i
     * @return n - 2 triangles, three corners each, in the polygon's direction
     */
    public static int[] triangles(int n, int[] middle) {
        int[] triangles = new int[3 * (n - 2)];
        int[] stack = new int[2 * n];
        int top = 0;
        int size = 0;
        stack[top++] = n - 1;
        while (top > 0) {
            int ik = stack[--top];
            int i = ik / n;
            int k = ik % n;
            int j = middle[ik];
            triangles[size++] = i;
            triangles[size++] = j;
            triangles[size++] = k;
            if (j > i + 1) {
                stack[top++] = i * n + j;
            }
            if (k > j + 1) {
                stack[top++] = j * n + k;
            }
        }
        return Arrays.copyOf(triangles, size);
    }
}
