package layupmold.geometry.render;

import java.util.ArrayList;
import java.util.List;

/** The meshes of a scene as one, projected into samples. */
final class SceneArrays {

    /** Sample x, sample y and nearness of each vertex. */
    final double[] projected;
    /** Vertices of each triangle. */
    final int[] corners;

    private final List<Item> items;
    private final int[] firstTriangle;
    private final int[] firstVertex;
    private final List<float[]> cornerNormals = new ArrayList<>();

    SceneArrays(List<Item> items, Projection projection) {
        this.items = items;
        firstTriangle = new int[items.size() + 1];
        firstVertex = new int[items.size() + 1];
        for (int i = 0; i < items.size(); i++) {
            firstTriangle[i + 1] = firstTriangle[i] + items.get(i).mesh().triangleCount();
            firstVertex[i + 1] = firstVertex[i] + items.get(i).mesh().vertexCount();
            cornerNormals.add(ShadingNormals.ofCorners(items.get(i).mesh()));
        }
        projected = new double[3 * firstVertex[items.size()]];
        corners = new int[3 * firstTriangle[items.size()]];
        for (int i = 0; i < items.size(); i++) {
            append(i, projection);
        }
    }

    /** Which item a triangle of the scene belongs to. */
    int itemOf(int triangle) {
        int i = 0;
        while (triangle >= firstTriangle[i + 1]) {
            i++;
        }
        return i;
    }

    /** Colour of a triangle of the scene at barycentric coordinates, 0xRRGGBB. */
    int colour(int item, int triangle, double[] b) {
        int first = firstVertex[item];
        return items.get(item).paint().at(triangle - firstTriangle[item], corners[3 * triangle] - first,
                corners[3 * triangle + 1] - first, corners[3 * triangle + 2] - first, b[0], b[1], b[2]);
    }

    /** Puts the shading normal (unit unless the triangle is degenerate) into {@code out}. */
    void normal(int item, int triangle, double[] b, double[] out) {
        float[] normals = cornerNormals.get(item);
        int at = 9 * (triangle - firstTriangle[item]);
        for (int k = 0; k < 3; k++) {
            out[k] = b[0] * normals[at + k] + b[1] * normals[at + 3 + k] + b[2] * normals[at + 6 + k];
        }
        double length = Math.sqrt(out[0] * out[0] + out[1] * out[1] + out[2] * out[2]);
        if (length > 0) {
            out[0] /= length;
            out[1] /= length;
            out[2] /= length;
        }
    }

    /**
     * Puts the barycentric coordinates, on the triangle itself and not in the picture, of the point seen at a sample
     * into {@code b}.
     *
     * @return true if the triangle's front is seen
     */
    boolean barycentric(int triangle, double x, double y, boolean perspective, double[] b) {
        int p = 3 * corners[3 * triangle];
        int q = 3 * corners[3 * triangle + 1];
        int r = 3 * corners[3 * triangle + 2];
        double ea = edge(q, r, x, y);
        double eb = edge(r, p, x, y);
        double ec = edge(p, q, x, y);
        // Sample y runs down, so a front is seen clockwise and its edge functions are negative.
        boolean front = ea + eb + ec < 0;
        double sign = front ? -1 : 1;
        b[0] = Math.max(0, sign * ea) * (perspective ? projected[p + 2] : 1);
        b[1] = Math.max(0, sign * eb) * (perspective ? projected[q + 2] : 1);
        b[2] = Math.max(0, sign * ec) * (perspective ? projected[r + 2] : 1);
        double sum = b[0] + b[1] + b[2];
        for (int k = 0; k < 3; k++) {
            b[k] = sum > 0 ? b[k] / sum : 1.0 / 3;
        }
        return front;
    }

    /** Unit normals of all triangles of the scene, three numbers each. */
    float[] faceNormals() {
        float[] all = new float[corners.length];
        int at = 0;
        for (Item item : items) {
            for (double component : item.mesh().unitNormals()) {
                all[at++] = (float) component;
            }
        }
        return all;
    }

    private double edge(int from, int to, double x, double y) {
        return (projected[to] - projected[from]) * (y - projected[from + 1])
                - (projected[to + 1] - projected[from + 1]) * (x - projected[from]);
    }

    private void append(int i, Projection projection) {
        double[] xyz = items.get(i).mesh().xyz();
        int[] triangles = items.get(i).mesh().triangles();
        for (int k = 0; k < xyz.length; k += 3) {
            projection.project(xyz[k], xyz[k + 1], xyz[k + 2], projected, 3 * firstVertex[i] + k);
        }
        for (int k = 0; k < triangles.length; k++) {
            corners[3 * firstTriangle[i] + k] = triangles[k] + firstVertex[i];
        }
    }
}
