package layupmold.geometry.mesh.io;

/**
 * How much a mesh file may ask for. Checked against what is really in the file, before memory is taken for it.
 *
 * @param maxBytes length of the file
 * @param maxTriangles triangles after triangulating polygons and placing components
 * @param maxVertices vertices before welding; an STL file has three a triangle
 * @param maxDecompressedBytes bytes that a compressed file may unfold to, counted as they come out
 */
public record MeshLimits(long maxBytes, int maxTriangles, int maxVertices, long maxDecompressedBytes) {

    public MeshLimits {
        if (maxBytes <= 0 || maxTriangles <= 0 || maxVertices <= 0 || maxDecompressedBytes <= 0) {
            throw new IllegalArgumentException("limits must be positive");
        }
    }

    /** 512 MiB, 5 million triangles, 15 million vertices, 1 GiB unfolded. */
    public static MeshLimits defaults() {
        return new MeshLimits(512L << 20, 5_000_000, 15_000_000, 1L << 30);
    }
}
