package layupmold.geometry.render;

/** What colour a mesh has. Colours are 0xRRGGBB. */
public sealed interface Paint {

    /** 0xRRGGBB at barycentric (b0, b1, b2) of triangle {@code t} with vertices v0, v1, v2. */
    int at(int t, int v0, int v1, int v2, double b0, double b1, double b2);

    /** The number of triangles or vertices the paint was made for must be that of the mesh. */
    void requireFit(int vertexCount, int triangleCount);

    /** One colour. */
    record Plain(int rgb) implements Paint {
        @Override
        public int at(int t, int v0, int v1, int v2, double b0, double b1, double b2) {
            return rgb;
        }

        @Override
        public void requireFit(int vertexCount, int triangleCount) {
            // fits any mesh
        }
    }

    /** A palette entry a triangle: regions. */
    record Regions(byte[] region, int[] palette) implements Paint {
        @Override
        public int at(int t, int v0, int v1, int v2, double b0, double b1, double b2) {
            return palette[region[t]];
        }

        @Override
        public void requireFit(int vertexCount, int triangleCount) {
            requireLength(region.length, triangleCount);
        }
    }

    /** A value a triangle, coloured by a scale; NaN where there is none. */
    record TriangleValues(float[] values, ValueScale scale) implements Paint {
        @Override
        public int at(int t, int v0, int v1, int v2, double b0, double b1, double b2) {
            return scale.colour(values[t]);
        }

        @Override
        public void requireFit(int vertexCount, int triangleCount) {
            requireLength(values.length, triangleCount);
        }
    }

    /** A value a vertex, interpolated and then coloured by a scale; NaN where there is none. */
    record VertexValues(float[] values, ValueScale scale) implements Paint {
        @Override
        public int at(int t, int v0, int v1, int v2, double b0, double b1, double b2) {
            return scale.colour(b0 * values[v0] + b1 * values[v1] + b2 * values[v2]);
        }

        @Override
        public void requireFit(int vertexCount, int triangleCount) {
            requireLength(values.length, vertexCount);
        }
    }

    private static void requireLength(int have, int need) {
        if (have != need) {
            throw new IllegalArgumentException("paint for " + have + " elements on a mesh with " + need);
        }
    }
}
