package layupmold.geometry.mesh.io;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;

/** 3MF files made up in tests. */
final class ThreeMfFiles {

    static final String RELATIONSHIPS = """
            <?xml version="1.0"?>
            <Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">
            <Relationship Id="t" Target="/Metadata/thumb.png" Type="http://example.org/thumbnail"/>
            <Relationship Id="m" Target="/3D/part.model"
              Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/>
            </Relationships>
            """;

    /** A tetrahedron of volume 1/6, facing outward. */
    static final String TETRAHEDRON = """
            <mesh><vertices><vertex x="0" y="0" z="0"/><vertex x="1" y="0" z="0"/><vertex x="0" y="1" z="0"/>
            <vertex x="0" y="0" z="1"/></vertices><triangles><triangle v1="0" v2="2" v3="1"/>
            <triangle v1="0" v2="1" v3="3"/><triangle v1="1" v2="2" v3="3"/><triangle v1="2" v2="0" v3="3"/>
            </triangles></mesh>
            """;

    private ThreeMfFiles() {
    }

    static String model(String attributes, String resources, String build) {
        return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<model " + attributes
                + " xmlns=\"http://schemas.microsoft.com/3dmanufacturing/core/2015/02\">\n<resources>" + resources
                + "</resources>\n<build>" + build + "</build>\n</model>";
    }

    /** One tetrahedron. */
    static String plainModel() {
        return model("unit=\"millimeter\"", "<object id=\"1\">" + TETRAHEDRON + "</object>",
                "<item objectid=\"1\"/>");
    }

    static byte[] file(String model) {
        Map<String, String> parts = new LinkedHashMap<>();
        parts.put("3D/part.model", model);
        parts.put("_rels/.rels", RELATIONSHIPS);
        return zip(parts);
    }

    static byte[] zip(Map<String, String> parts) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (ZipOutputStream zip = new ZipOutputStream(out)) {
            for (Map.Entry<String, String> part : parts.entrySet()) {
                zip.putNextEntry(new ZipEntry(part.getKey()));
                zip.write(part.getValue().getBytes(StandardCharsets.UTF_8));
            }
        } catch (IOException e) {
            throw new AssertionError(e);
        }
        return out.toByteArray();
    }
}
