package layupmold.geometry.mesh.io;

import java.io.IOException;
import java.io.OutputStream;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.LocalDateTime;
import java.util.Arrays;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.zip.Deflater;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.RigidTransform;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Writes objects as 3MF (3MF Core Specification 1.3): millimetres, shared vertices, z up; where regions are given,
 * as labels of the Triangle Sets extension, which readers may ignore.
 *
 * <p>The bytes depend on the arguments alone: no clock, no time zone, no random identifiers.
 */
public final class ThreeMfWriter {

    /** Metadata names that the core specification defines; all others are written under our own namespace. */
    private static final Set<String> WELL_KNOWN = Set.of("Title", "Designer", "Description", "Copyright",
            "LicenseTerms", "Rating", "CreationDate", "ModificationDate", "Application");

    private static final String OWN_NAMESPACE = "urn:layupmold:metadata";
    private static final String SETS = "http://schemas.microsoft.com/3dmanufacturing/trianglesets/2021/07";
    /** Not the first instant of 1980: for that one the JDK adds a second time stamp in the local zone. */
    private static final LocalDateTime ALWAYS = LocalDateTime.of(2000, 1, 1, 0, 0);
    private static final String PROLOG = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
    private static final String CONTENT_TYPES = PROLOG
            + "<Types xmlns=\"http://schemas.openxmlformats.org/package/2006/content-types\">"
            + "<Default Extension=\"rels\" ContentType=\"application/vnd.openxmlformats-package.relationships+xml\"/>"
            + "<Default Extension=\"model\" ContentType=\"application/vnd.ms-package.3dmanufacturing-3dmodel+xml\"/>"
            + "</Types>\n";
    private static final String RELATIONSHIPS = PROLOG
            + "<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\">"
            + "<Relationship Id=\"model\" Target=\"/3D/3dmodel.model\""
            + " Type=\"http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel\"/></Relationships>\n";

    private ThreeMfWriter() {
    }

    /**
     * A mesh and where it stands. Items with the same mesh array share one object.
     *
     * @param regions {@link MoldRegion} ordinal of every triangle, or null
     * @param name shown by programs, or null
     * @param placement from the mesh's frame to the bed's, or null for none
     */
    public record Item(TriangleMesh mesh, byte[] regions, String name, RigidTransform placement) {

        public Item {
            if (regions != null && regions.length != mesh.triangleCount()) {
                throw new IllegalArgumentException(regions.length + " regions for " + mesh.triangleCount() + " triangles");
            }
        }
    }

    /**
     * Writes {@code mesh} with coordinates rounded to float32. O(n).
     *
     * @param mesh in mm; for a printable object closed, manifold and facing outward, which is not checked here
     * @param regions {@link MoldRegion} ordinal of every triangle, or null
     * @param metadata text by name; names other than the specification's nine must be XML names without colon
     * @param out is finished but not closed
     * @throws IllegalArgumentException if a metadata name is not valid, or regions do not fit the mesh
     */
    public static void write(TriangleMesh mesh, byte[] regions, Map<String, String> metadata, OutputStream out)
            throws IOException {
        write(List.of(new Item(mesh, regions, null, null)), metadata, out);
    }

    /**
     * Writes a plate of items. O(n).
     *
     * @param items at least one
     * @param metadata text by name; names other than the specification's nine must be XML names without colon
     * @param out is finished but not closed
     * @throws IllegalArgumentException if a metadata name is not valid
     */
    public static void write(List<Item> items, Map<String, String> metadata, OutputStream out) throws IOException {
        ZipOutputStream zip = new ZipOutputStream(out);
        // Meshes in XML shrink nearly as much at the fastest level, several times sooner.
        zip.setLevel(Deflater.BEST_SPEED);
        part(zip, "[Content_Types].xml");
        zip.write(CONTENT_TYPES.getBytes(StandardCharsets.UTF_8));
        part(zip, "_rels/.rels");
        zip.write(RELATIONSHIPS.getBytes(StandardCharsets.UTF_8));
        part(zip, "3D/3dmodel.model");
        AsciiSink sink = new AsciiSink(zip);
        model(items, new TreeMap<>(metadata), sink);
        sink.flush();
        zip.finish();
    }

    private static void part(ZipOutputStream zip, String name) throws IOException {
        ZipEntry entry = new ZipEntry(name);
        entry.setTimeLocal(ALWAYS);
        zip.putNextEntry(entry);
    }

    private static void model(List<Item> items, Map<String, String> metadata, AsciiSink sink) throws IOException {
        sink.text(PROLOG).text("<model unit=\"millimeter\" xml:lang=\"en-US\" xmlns=\"")
                .text(ThreeMfModelParser.CORE).text("\" xmlns:lm=\"").text(OWN_NAMESPACE).text("\"");
        if (items.stream().anyMatch(item -> item.regions() != null)) {
            sink.text(" xmlns:t=\"").text(SETS).text("\"");
        }
        sink.text(">\n");
        for (Map.Entry<String, String> entry : metadata.entrySet()) {
            sink.text("<metadata name=\"").text(metadataName(entry.getKey())).text("\">")
                    .text(escaped(entry.getValue())).text("</metadata>\n");
        }
        sink.text("<resources>\n");
        Map<TriangleMesh, Integer> objects = new IdentityHashMap<>();
        for (Item item : items) {
            if (objects.putIfAbsent(item.mesh(), objects.size() + 1) == null) {
                object(item, objects.size(), sink);
            }
        }
        sink.text("</resources>\n<build>\n");
        for (Item item : items) {
            sink.text("<item objectid=\"").number(objects.get(item.mesh())).text("\"");
            if (item.placement() != null) {
                sink.text(" transform=\"").text(transform(item.placement())).text("\"");
            }
            sink.text("/>\n");
        }
        sink.text("</build>\n</model>\n");
    }

    private static void object(Item item, int id, AsciiSink sink) throws IOException {
        sink.text("<object id=\"").number(id).text("\" type=\"model\"");
        if (item.name() != null) {
            sink.text(" name=\"").text(escaped(item.name()).replace("\"", "&quot;").replace("\n", " ")
                    .replace("\t", " ")).text("\"");
        }
        sink.text(">\n<mesh>\n");
        vertices(item.mesh(), sink);
        triangles(item.mesh(), sink);
        if (item.regions() != null) {
            sets(item.regions(), sink);
        }
        sink.text("</mesh>\n</object>\n");
    }

    /** Twelve numbers for row vectors (section 3.3 of the specification): the columns of ours, then the shift. */
    private static String transform(RigidTransform placement) {
        double[] m = placement.toRowMajor();
        int[] order = {0, 4, 8, 1, 5, 9, 2, 6, 10, 3, 7, 11};
        return Arrays.stream(order).mapToObj(i -> new BigDecimal(Double.toString(m[i] + 0.0)).toPlainString())
                .collect(Collectors.joining(" "));
    }

    private static String metadataName(String name) {
        if (WELL_KNOWN.contains(name)) {
            return name;
        }
        if (!name.matches("[A-Za-z_][A-Za-z0-9_.-]*")) {
            throw new IllegalArgumentException("\"" + name + "\" is no metadata name");
        }
        return "lm:" + name;
    }

    /** Text with XML's own characters escaped and those that XML cannot hold replaced. */
    private static String escaped(String text) {
        StringBuilder safe = new StringBuilder();
        text.codePoints().forEach(c -> {
            switch (c) {
                case '&' -> safe.append("&amp;");
                case '<' -> safe.append("&lt;");
                case '>' -> safe.append("&gt;");
                default -> safe.appendCodePoint(allowed(c) ? c : 0xFFFD);
            }
        });
        return safe.toString();
    }

    /** Char of XML 1.0, section 2.2; a carriage return would come back as another character. */
    private static boolean allowed(int c) {
        return c == '\t' || c == '\n' || c >= 0x20 && c <= 0xD7FF || c >= 0xE000 && c <= 0xFFFD || c >= 0x10000;
    }

    private static void vertices(TriangleMesh mesh, AsciiSink sink) throws IOException {
        byte[] x = ascii("<vertex x=\"");
        byte[] y = ascii("\" y=\"");
        byte[] z = ascii("\" z=\"");
        byte[] end = ascii("\"/>\n");
        double[] xyz = mesh.xyz();
        sink.text("<vertices>\n");
        for (int i = 0; i < xyz.length; i += 3) {
            sink.raw(x).decimal((float) xyz[i]).raw(y).decimal((float) xyz[i + 1]).raw(z)
                    .decimal((float) xyz[i + 2]).raw(end);
        }
        sink.text("</vertices>\n");
    }

    private static void triangles(TriangleMesh mesh, AsciiSink sink) throws IOException {
        byte[] v1 = ascii("<triangle v1=\"");
        byte[] v2 = ascii("\" v2=\"");
        byte[] v3 = ascii("\" v3=\"");
        byte[] end = ascii("\"/>\n");
        int[] triangles = mesh.triangles();
        sink.text("<triangles>\n");
        for (int i = 0; i < triangles.length; i += 3) {
            sink.raw(v1).number(triangles[i]).raw(v2).number(triangles[i + 1]).raw(v3).number(triangles[i + 2])
                    .raw(end);
        }
        sink.text("</triangles>\n");
    }

    private static byte[] ascii(String text) {
        return text.getBytes(StandardCharsets.US_ASCII);
    }

    private static void sets(byte[] regions, AsciiSink sink) throws IOException {
        sink.text("<t:trianglesets>\n");
        for (MoldRegion region : MoldRegion.values()) {
            boolean open = false;
            for (int t = 0; t < regions.length; t++) {
                if (regions[t] != region.ordinal()) {
                    continue;
                }
                if (!open) {
                    String name = region.name().toLowerCase(Locale.ROOT);
                    sink.text("<t:triangleset name=\"" + name + "\" identifier=\"" + name + "\">\n");
                    open = true;
                }
                int first = t;
                while (t + 1 < regions.length && regions[t + 1] == region.ordinal()) {
                    t++;
                }
                reference(first, t, sink);
            }
            if (open) {
                sink.text("</t:triangleset>\n");
            }
        }
        sink.text("</t:trianglesets>\n");
    }

    private static void reference(int first, int last, AsciiSink sink) throws IOException {
        if (first == last) {
            sink.text("<t:ref index=\"").number(first).text("\"/>\n");
        } else {
            sink.text("<t:refrange startindex=\"").number(first).text("\" endindex=\"").number(last).text("\"/>\n");
        }
    }
}
