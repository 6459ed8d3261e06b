package layupmold.geometry.mesh.io;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Vertices and polygons as they come out of a file; grows with what is really there and stops at the limits.
 *
 * <p>Faces may come before their vertices: indices are checked and polygons triangulated at the end.
 */
final class PolygonSoup {

    private final MeshLimits limits;
    private double[] xyz = new double[3 * 256];
    private int vertexCount;
    private int[] corners = new int[3 * 256];
    private int cornerCount;
    private int[] faceEnds = new int[256];
    private int faceCount;
    private boolean onlyTriangles = true;
    private int skippedFaces;
    private int awkwardPolygons;

    PolygonSoup(MeshLimits limits) {
        this.limits = limits;
    }

    int vertexCount() {
        return vertexCount;
    }

    int faceCount() {
        return faceCount;
    }

    /** Adds a vertex and returns its index. */
    int addVertex(double x, double y, double z) {
        if (vertexCount == limits.maxVertices()) {
            throw Unreadable.tooManyVertices(vertexCount + 1L, limits);
        }
        int i = 3 * vertexCount;
        if (i + 3 > xyz.length) {
            xyz = Arrays.copyOf(xyz, grown(xyz.length));
        }
        xyz[i] = x;
        xyz[i + 1] = y;
        xyz[i + 2] = z;
        return vertexCount++;
    }

    /** Adds a corner to the face being built; {@code vertex} may not be known yet, but is not negative. */
    void addCorner(int vertex) {
        if (cornerCount == corners.length) {
            corners = Arrays.copyOf(corners, grown(corners.length));
        }
        corners[cornerCount++] = vertex;
        if (cornerCount - 2L * faceCount - 2 > limits.maxTriangles()) {
            throw Unreadable.tooManyTriangles(cornerCount - 2L * faceCount - 2, limits);
        }
    }

    /** Closes the face being built; a face of fewer than three corners is left out. */
    void endFace() {
        int start = faceCount == 0 ? 0 : faceEnds[faceCount - 1];
        if (cornerCount - start < 3) {
            cornerCount = start;
            skippedFaces++;
            return;
        }
        if (faceCount == faceEnds.length) {
            faceEnds = Arrays.copyOf(faceEnds, grown(faceEnds.length));
        }
        onlyTriangles &= cornerCount - start == 3;
        faceEnds[faceCount++] = cornerCount;
    }

    private static int grown(int length) {
        return length + Math.max(256, length / 2) / 3 * 3 + 3;
    }

    /** First face that names a vertex that does not exist, or -1. */
    int firstFaceOutOfRange() {
        int face = 0;
        for (int i = 0; i < cornerCount; i++) {
            if (corners[i] >= vertexCount) {
                while (faceEnds[face] <= i) {
                    face++;
                }
                return face;
            }
        }
        return -1;
    }

    /** The triangles, in the order of the faces. Call once, after {@link #firstFaceOutOfRange} gave -1. */
    TriangleMesh toMesh() {
        double[] positions = Arrays.copyOf(xyz, 3 * vertexCount);
        xyz = null;
        if (onlyTriangles) {
            return new TriangleMesh(positions, Arrays.copyOf(corners, cornerCount));
        }
        int[] triangles = new int[3 * (cornerCount - 2 * faceCount)];
        PolygonTriangulator triangulator = new PolygonTriangulator(positions);
        int at = 0;
        for (int f = 0, start = 0; f < faceCount; start = faceEnds[f++]) {
            at = triangulator.triangulate(corners, start, faceEnds[f], triangles, at);
        }
        awkwardPolygons = triangulator.awkward();
        return new TriangleMesh(positions, triangles);
    }

    /** What there is to say about the faces, after {@link #toMesh}. */
    List<Finding> findings() {
        List<Finding> findings = new ArrayList<>();
        if (skippedFaces > 0) {
            findings.add(Finding.warning("read", "faces-skipped",
                    skippedFaces + " faces with fewer than three corners were left out"));
        }
        if (awkwardPolygons > 0) {
            findings.add(Finding.warning("read", "polygons-not-simple",
                    awkwardPolygons + " polygons cross or touch themselves; their triangles are a guess")
                    .advising("Export the mesh as triangles."));
        }
        return findings;
    }
}
