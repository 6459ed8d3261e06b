package layupmold.geometry.mesh.io;

/**
 * Reads a part's mesh: STL (binary, ASCII), OBJ, PLY (ASCII, both binaries) and 3MF.
 *
 * <p>Input is taken as hostile: memory follows the bytes that are there, never what a header claims, and every
 * malformed file ends in a {@link layupmold.geometry.finding.Rejection} of stage "read" that says where. Nothing is
 * written to disk, no name inside a file is opened.
 */
public final class MeshReader {

    private MeshReader() {
    }

    /**
     * Reads {@code bytes}. The format is found from the content. O(bytes).
     *
     * @param fileName used only to word refusals; may be null
     * @throws layupmold.geometry.finding.Rejection with code "too-large", "too-many-triangles", "too-many-vertices",
     *     "unknown-format", "empty", "truncated", "bad-syntax", "bad-number", "coordinate-not-finite",
     *     "coordinate-out-of-range", "index-out-of-range", "polygons-too-large", "bad-archive", "bad-xml",
     *     "unfolds-too-large", "unsupported-extension" or "bad-structure"
     */
    public static PartFile read(byte[] bytes, String fileName, MeshLimits limits) {
        if (bytes.length > limits.maxBytes()) {
            throw Unreadable.because("too-large",
                    "the file has " + bytes.length + " bytes; the limit is " + limits.maxBytes(),
                    "Reduce the mesh, or post it as binary STL or 3MF.");
        }
        return switch (FormatDetector.detect(bytes, fileName)) {
            case STL_BINARY -> StlReader.readBinary(bytes, limits);
            case STL_ASCII -> StlReader.readAscii(bytes, limits);
            case OBJ -> ObjReader.read(bytes, limits);
            case PLY -> PlyReader.read(bytes, limits);
            case THREE_MF -> ThreeMfReader.read(bytes, limits);
        };
    }
}
