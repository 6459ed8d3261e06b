package layupmold.geometry.mesh.io;

import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import javax.xml.stream.XMLStreamReader;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.LengthUnit;

/** Parses a model part (3MF Core Specification 1.3, 3MF Production Extension 1.1 for parts in other files). */
final class ThreeMfModelParser {

    static final String CORE = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02";
    private static final String PRODUCTION = "http://schemas.microsoft.com/3dmanufacturing/production/2015/06";
    /** Extensions that do not change an object's shape when they are not read. */
    private static final Set<String> HARMLESS = Set.of(PRODUCTION,
            "http://schemas.microsoft.com/3dmanufacturing/material/2015/02",
            "http://schemas.microsoft.com/3dmanufacturing/trianglesets/2021/07");

    private final String partName;
    private final XmlPart part;
    private final XMLStreamReader xml;
    private final MeshLimits limits;
    private final ThreeMfModel model = new ThreeMfModel();
    private byte[] scratch = new byte[64];

    private ThreeMfModelParser(String partName, InputStream content, MeshLimits limits) {
        this.partName = partName;
        this.part = new XmlPart(partName, content);
        this.xml = part.xml();
        this.limits = limits;
    }

    static ThreeMfModel parse(String partName, InputStream content, MeshLimits limits) {
        return new ThreeMfModelParser(partName, content, limits).model();
    }

    private ThreeMfModel model() {
        if (!part.next() || !isCore("model")) {
            throw part.problem("the root element is no 3MF model");
        }
        unit();
        requiredExtensions();
        children(() -> {
            switch (xml.getLocalName()) {
                case "resources" -> children(() -> only("object", this::object));
                case "build" -> children(() -> only("item", () -> {
                    model.build.add(use());
                    part.leave();
                }));
                default -> part.passOver();
            }
        });
        while (part.next()) {
            // To the document's end: what follows must be well-formed too.
        }
        return model;
    }

    private boolean isCore(String localName) {
        return localName.equals(xml.getLocalName()) && CORE.equals(xml.getNamespaceURI());
    }

    private void only(String localName, Runnable action) {
        if (xml.getLocalName().equals(localName)) {
            action.run();
        } else {
            part.passOver();
        }
    }

    /** Runs {@code action} at the start of each child in the core namespace; it must consume that child. */
    private void children(Runnable action) {
        while (part.next() && part.atStart()) {
            if (CORE.equals(xml.getNamespaceURI())) {
                action.run();
            } else {
                part.passOver();
            }
        }
    }

    private void unit() {
        String unit = xml.getAttributeValue(null, "unit");
        model.unit = unit == null ? LengthUnit.MM : switch (unit) {
            case "micron" -> LengthUnit.MICRON;
            case "millimeter" -> LengthUnit.MM;
            case "centimeter" -> LengthUnit.CM;
            case "meter" -> LengthUnit.M;
            case "inch" -> LengthUnit.INCH;
            case "foot" -> LengthUnit.FOOT;
            default -> throw part.problem("\"" + Unreadable.printable(unit) + "\" is no unit");
        };
    }

    private void requiredExtensions() {
        String prefixes = xml.getAttributeValue(null, "requiredextensions");
        if (prefixes == null) {
            return;
        }
        for (String prefix : prefixes.trim().split("\\s+")) {
            String namespace = prefix.isEmpty() ? CORE : xml.getNamespaceURI(prefix);
            if (namespace == null || !HARMLESS.contains(namespace) && !namespace.equals(CORE)) {
                model.unknownExtension = Unreadable.printable(namespace == null ? prefix : namespace);
            }
        }
    }

    private void object() {
        long id = identifier("id");
        String type = xml.getAttributeValue(null, "type");
        boolean printed = type == null || type.equals("model") || type.equals("surface");
        List<ThreeMfModel.Use> components = new ArrayList<>();
        PolygonSoup soup = new PolygonSoup(limits);
        children(() -> {
            switch (xml.getLocalName()) {
                case "mesh" -> mesh(soup);
                case "components" -> children(() -> only("component", () -> {
                    components.add(use());
                    part.leave();
                }));
                default -> part.passOver();
            }
        });
        int bad = soup.firstFaceOutOfRange();
        if (bad >= 0) {
            throw Unreadable.index(part.place() + ": triangle " + bad + " of object " + id
                    + " names a vertex that does not exist; there are " + soup.vertexCount());
        }
        TriangleMesh mesh = soup.toMesh();
        if (model.bodies.putIfAbsent(id, new ThreeMfModel.Body(mesh, components, printed)) != null) {
            throw structure("two objects have the id " + id);
        }
    }

    private void mesh(PolygonSoup soup) {
        children(() -> {
            switch (xml.getLocalName()) {
                case "vertices" -> children(() -> only("vertex", () -> vertex(soup)));
                case "triangles" -> children(() -> only("triangle", () -> triangle(soup)));
                default -> part.passOver();
            }
        });
    }

    private void vertex(PolygonSoup soup) {
        double x = coordinate("x");
        double y = coordinate("y");
        soup.addVertex(x, y, coordinate("z"));
        part.leave();
    }

    private double coordinate(String axis) {
        String text = attribute(axis);
        double value = number(text);
        if (!(Math.abs(value) <= Unreadable.MAX_COORDINATE)) {
            throw Unreadable.coordinate(part.place(), value, text);
        }
        return value;
    }

    private void triangle(PolygonSoup soup) {
        soup.addCorner((int) identifier("v1"));
        soup.addCorner((int) identifier("v2"));
        soup.addCorner((int) identifier("v3"));
        soup.endFace();
        part.leave();
    }

    private ThreeMfModel.Use use() {
        long id = identifier("objectid");
        String path = xml.getAttributeValue(PRODUCTION, "path");
        return new ThreeMfModel.Use(path == null ? partName : OpcPackage.normal(path), id, transform());
    }

    private double[] transform() {
        String text = xml.getAttributeValue(null, "transform");
        if (text == null) {
            return null;
        }
        String[] words = text.trim().split("\\s+", 14);
        if (words.length != 12) {
            throw part.problem("a transform needs twelve numbers");
        }
        double[] transform = new double[12];
        for (int i = 0; i < 12; i++) {
            transform[i] = number(words[i]);
            if (!(Math.abs(transform[i]) <= Unreadable.MAX_COORDINATE)) {
                throw Unreadable.coordinate(part.place(), transform[i], words[i]);
            }
        }
        return transform;
    }

    private String attribute(String localName) {
        for (int i = 0; i < xml.getAttributeCount(); i++) {
            if (xml.getAttributeLocalName(i).equals(localName)) {
                String namespace = xml.getAttributeNamespace(i);
                if (namespace == null || namespace.isEmpty()) {
                    return xml.getAttributeValue(i);
                }
            }
        }
        throw part.problem("<" + Unreadable.printable(xml.getLocalName()) + "> has no attribute " + localName);
    }

    /** A whole number from 0 to 2³¹ - 2. */
    private long identifier(String attribute) {
        String text = attribute(attribute);
        long value = 0;
        boolean good = !text.isEmpty();
        for (int i = 0; i < text.length() && good; i++) {
            int digit = text.charAt(i) - '0';
            good = digit >= 0 && digit <= 9;
            value = 10 * value + digit;
            good &= value < Integer.MAX_VALUE;
        }
        if (!good) {
            throw Unreadable.because("bad-number", part.place() + ": " + attribute + "=\""
                    + Unreadable.printable(text) + "\" is not a valid number", "The file is damaged: export it again.");
        }
        return value;
    }

    private double number(String text) {
        int length = text.length();
        if (length > scratch.length) {
            scratch = new byte[length];
        }
        for (int i = 0; i < length; i++) {
            char c = text.charAt(i);
            scratch[i] = c < 128 ? (byte) c : (byte) '?';
        }
        return DecimalParser.parse(scratch, 0, length);
    }

    private layupmold.geometry.finding.Rejection structure(String what) {
        return Unreadable.because("bad-structure", part.place() + ": " + what,
                "The file is damaged: export it again.");
    }
}
