package layupmold.geometry.render;

import java.awt.image.BufferedImage;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.IntFunction;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Binary glTF 2.0 (ISO/IEC 12113) of a closed mesh with maps to switch between.
 *
 * <p>Every map is a material variant (KHR_materials_variants) whose texture is a row of colours; the value at a vertex
 * is its texture coordinate. Two maps share a coordinate set, one in u and one in v, so that eight maps fit the four
 * sets that viewers commonly read. Nothing is required of a viewer beyond the core format: one without variants shows
 * the plain mold. Millimetres and z up become metres and y up by the node's scale and rotation.
 */
public final class GlbWriter {

    /** Most layers that one file carries. */
    public static final int MOST_LAYERS = 8;

    private static final int TEXELS = 256;
    /** Texels at the start of each row that stand for "no value". */
    private static final int NO_VALUE_TEXELS = 32;
    private static final double[] PLAIN = {0.62, 0.59, 0.54};

    private final TriangleMesh mesh;
    private final List<MapLayer> layers;
    private final SplitVertices split;
    private final List<byte[]> views = new ArrayList<>();
    private final List<String> viewHeads = new ArrayList<>();
    private final List<String> accessors = new ArrayList<>();

    private GlbWriter(TriangleMesh mesh, List<MapLayer> layers) {
        this.mesh = mesh;
        this.layers = layers;
        this.split = new SplitVertices(mesh, layers);
    }

    /**
     * @param mesh mm, z up, closed (back faces are not drawn), at least one triangle
     * @param layers at most {@link #MOST_LAYERS}, one fraction a triangle each
     * @return the file; O(n)
     */
    public static byte[] write(TriangleMesh mesh, List<MapLayer> layers) {
        if (layers.size() > MOST_LAYERS || mesh.triangleCount() == 0) {
            throw new IllegalArgumentException("one triangle at least and " + MOST_LAYERS + " layers at most");
        }
        for (MapLayer layer : layers) {
            if (layer.fractions().length != mesh.triangleCount()) {
                throw new IllegalArgumentException("layer " + layer.name() + " was made for another mesh");
            }
        }
        return new GlbWriter(mesh, List.copyOf(layers)).file();
    }

    private byte[] file() {
        addIndices();
        addPositions();
        addVectors(split.normals);
        int sets = (layers.size() + 1) / 2;
        for (int set = 0; set < sets; set++) {
            addCoordinates(set);
        }
        for (int k = 0; k < layers.size(); k++) {
            views.add(texture(layers.get(k), k % 2 == 0));
            viewHeads.add("");
        }
        return container(json(sets), joinedViews());
    }

    private void addIndices() {
        ByteBuffer out = little(4 * split.ofCorner.length);
        out.asIntBuffer().put(split.ofCorner);
        add(out, ",\"target\":34963", accessor(5125, split.ofCorner.length, "SCALAR", ""));
    }

    private void addPositions() {
        float[] xyz = new float[3 * split.count];
        float[] low = {Float.MAX_VALUE, Float.MAX_VALUE, Float.MAX_VALUE};
        float[] high = {-Float.MAX_VALUE, -Float.MAX_VALUE, -Float.MAX_VALUE};
        for (int i = 0; i < xyz.length; i++) {
            xyz[i] = (float) mesh.xyz()[3 * split.source[i / 3] + i % 3];
            low[i % 3] = Math.min(low[i % 3], xyz[i]);
            high[i % 3] = Math.max(high[i % 3], xyz[i]);
        }
        ByteBuffer out = little(4 * xyz.length);
        out.asFloatBuffer().put(xyz);
        add(out, ",\"target\":34962", accessor(5126, split.count, "VEC3",
                ",\"min\":" + numbers(low) + ",\"max\":" + numbers(high)));
    }

    private void addVectors(float[] vectors) {
        ByteBuffer out = little(4 * vectors.length);
        out.asFloatBuffer().put(vectors);
        add(out, ",\"target\":34962", accessor(5126, vectors.length / 3, "VEC3", ""));
    }

    /** Texture coordinates of layers 2·set (u) and 2·set + 1 (v) as normalised 16-bit numbers. */
    private void addCoordinates(int set) {
        float[] u = split.means(layers.get(2 * set));
        float[] v = 2 * set + 1 < layers.size() ? split.means(layers.get(2 * set + 1)) : u;
        ByteBuffer out = little(4 * split.count);
        for (int s = 0; s < split.count; s++) {
            out.putShort(coordinate(u[s])).putShort(coordinate(v[s]));
        }
        add(out, ",\"target\":34962", accessor(5123, split.count, "VEC2", ",\"normalized\":true"));
    }

    private static short coordinate(float fraction) {
        double texel = Float.isNaN(fraction)
                ? NO_VALUE_TEXELS / 2.0
                : NO_VALUE_TEXELS + 0.5 + fraction * (TEXELS - 1 - NO_VALUE_TEXELS);
        return (short) Math.round(65535 * texel / TEXELS);
    }

    private static byte[] texture(MapLayer layer, boolean alongU) {
        BufferedImage image = new BufferedImage(alongU ? TEXELS : 4, alongU ? 4 : TEXELS, BufferedImage.TYPE_INT_RGB);
        int[] colours = layer.colours();
        for (int i = 0; i < TEXELS; i++) {
            double t = (i - NO_VALUE_TEXELS) / (double) (TEXELS - 1 - NO_VALUE_TEXELS);
            int at = (int) Math.min(colours.length - 1, Math.floor(t * colours.length));
            int rgb = t < 0 ? ColourMap.NO_VALUE : colours[at];
            for (int j = 0; j < 4; j++) {
                image.setRGB(alongU ? i : j, alongU ? j : i, rgb);
            }
        }
        return PngWriter.toBytes(image);
    }

    private void add(ByteBuffer bytes, String viewHead, String accessor) {
        views.add(bytes.array());
        viewHeads.add(viewHead);
        accessors.add(accessor);
    }

    private String accessor(int componentType, int count, String type, String more) {
        return "{\"bufferView\":" + views.size() + ",\"componentType\":" + componentType + ",\"count\":" + count
                + ",\"type\":\"" + type + "\"" + more + "}";
    }

    private String json(int sets) {
        StringBuilder json = new StringBuilder("{\"asset\":{\"version\":\"2.0\",\"generator\":\"Layupmold\"}");
        json.append(",\"scene\":0,\"scenes\":[{\"nodes\":[0]}]");
        json.append(",\"nodes\":[{\"name\":\"mold\",\"mesh\":0,\"rotation\":[-0.7071067811865476,0,0,0.7071067811865476]")
                .append(",\"scale\":[0.001,0.001,0.001]}]");
        json.append(",\"meshes\":[{\"primitives\":[{\"attributes\":{\"POSITION\":1,\"NORMAL\":2");
        for (int set = 0; set < sets; set++) {
            json.append(",\"TEXCOORD_").append(set).append("\":").append(3 + set);
        }
        json.append("},\"indices\":0,\"material\":0").append(primitiveVariants()).append("}]}]");
        json.append(",\"materials\":").append(materials());
        if (!layers.isEmpty()) {
            json.append(",\"textures\":").append(each(k -> "{\"sampler\":0,\"source\":" + k + "}"));
            json.append(",\"samplers\":[{\"magFilter\":9729,\"minFilter\":9729,\"wrapS\":33071,\"wrapT\":33071}]");
            json.append(",\"images\":").append(each(
                    k -> "{\"mimeType\":\"image/png\",\"bufferView\":" + (accessors.size() + k) + "}"));
            json.append(",\"extensionsUsed\":[\"KHR_materials_variants\"]");
            json.append(",\"extensions\":{\"KHR_materials_variants\":{\"variants\":[{\"name\":\"plain\"},")
                    .append(each(k -> "{\"name\":\"" + layers.get(k).name() + "\"}").substring(1)).append("}}");
        }
        json.append(",\"accessors\":[").append(String.join(",", accessors)).append("]");
        json.append(",\"bufferViews\":").append(bufferViews());
        return json.append(",\"buffers\":[{\"byteLength\":").append(viewsLength()).append("}]}").toString();
    }

    private String primitiveVariants() {
        if (layers.isEmpty()) {
            return "";
        }
        return ",\"extensions\":{\"KHR_materials_variants\":{\"mappings\":[{\"material\":0,\"variants\":[0]},"
                + each(k -> "{\"material\":" + (k + 1) + ",\"variants\":[" + (k + 1) + "]}").substring(1) + "}}";
    }

    private String materials() {
        String plain = String.format(Locale.ROOT, "{\"name\":\"plain\",\"pbrMetallicRoughness\":{\"baseColorFactor\":"
                + "[%.3f,%.3f,%.3f,1],\"metallicFactor\":0,\"roughnessFactor\":0.75}}", PLAIN[0], PLAIN[1], PLAIN[2]);
        if (layers.isEmpty()) {
            return "[" + plain + "]";
        }
        return "[" + plain + "," + each(k -> "{\"name\":\"" + layers.get(k).name()
                + "\",\"pbrMetallicRoughness\":{\"baseColorTexture\":{\"index\":" + k + ",\"texCoord\":" + k / 2
                + "},\"metallicFactor\":0,\"roughnessFactor\":1}}").substring(1);
    }

    private String each(IntFunction<String> item) {
        return IntStream.range(0, layers.size()).mapToObj(item).collect(Collectors.joining(",", "[", "]"));
    }

    private String bufferViews() {
        List<String> heads = new ArrayList<>();
        int offset = 0;
        for (int i = 0; i < views.size(); i++) {
            heads.add("{\"buffer\":0,\"byteOffset\":" + offset + ",\"byteLength\":" + views.get(i).length
                    + viewHeads.get(i) + "}");
            offset += padded(views.get(i).length);
        }
        return "[" + String.join(",", heads) + "]";
    }

    private int viewsLength() {
        return views.stream().mapToInt(view -> padded(view.length)).sum();
    }

    private byte[] joinedViews() {
        byte[] all = new byte[viewsLength()];
        int at = 0;
        for (byte[] view : views) {
            System.arraycopy(view, 0, all, at, view.length);
            at += padded(view.length);
        }
        return all;
    }

    /** Header, JSON chunk padded with spaces, binary chunk (sections 4.4.2 and 4.4.3 of the specification). */
    private static byte[] container(String json, byte[] binary) {
        byte[] text = json.getBytes(StandardCharsets.UTF_8);
        String padding = " ".repeat(padded(text.length) - text.length);
        ByteBuffer out = little(28 + padded(text.length) + binary.length);
        out.putInt(0x46546C67).putInt(2).putInt(out.capacity());
        out.putInt(padded(text.length)).putInt(0x4E4F534A).put(text).put(padding.getBytes(StandardCharsets.UTF_8));
        out.putInt(binary.length).putInt(0x004E4942).put(binary);
        return out.array();
    }

    private static int padded(int length) {
        return (length + 3) & ~3;
    }

    private static ByteBuffer little(int size) {
        return ByteBuffer.allocate(size).order(ByteOrder.LITTLE_ENDIAN);
    }

    private static String numbers(float[] values) {
        return "[" + values[0] + "," + values[1] + "," + values[2] + "]";
    }
}
