package layupmold.geometry.mesh.io;

import java.util.List;
import layupmold.geometry.mesh.io.PlyHeader.Element;
import layupmold.geometry.mesh.io.PlyHeader.Encoding;
import layupmold.geometry.mesh.io.PlyHeader.Property;
import layupmold.geometry.mesh.io.PlyHeader.Type;

/**
 * PLY, ASCII and both binary orders (G. Turk, The PLY Polygon File Format, 1994): elements and properties of any type
 * in any order; {@code vertex} with {@code x y z} and {@code face} with {@code vertex_indices} (or
 * {@code vertex_index}) are read, all others passed over. O(bytes).
 */
final class PlyReader {

    private final PlyHeader header;
    private final PlyValues values;
    private final PolygonSoup soup;
    private int highestFaceIndex = -1;

    private PlyReader(byte[] bytes, MeshLimits limits) {
        header = PlyHeader.parse(bytes);
        values = header.encoding() == Encoding.ASCII ? new PlyValues.Ascii(bytes, header.bodyAt())
                : new PlyValues.Binary(bytes, header.bodyAt(), header.encoding() == Encoding.BIG_ENDIAN);
        soup = new PolygonSoup(limits);
    }

    static PartFile read(byte[] bytes, MeshLimits limits) {
        return new PlyReader(bytes, limits).read();
    }

    private PartFile read() {
        for (Element element : header.elements()) {
            if (element.properties().isEmpty()) {
                continue;
            }
            values.require(element);
            switch (element.name()) {
                case "vertex" -> vertices(element);
                case "face" -> faces(element);
                default -> passOver(element);
            }
        }
        if (soup.faceCount() == 0) {
            throw Unreadable.empty("the PLY file has " + soup.vertexCount() + " vertices and no faces");
        }
        if (highestFaceIndex >= soup.vertexCount()) {
            throw Unreadable.index("face " + soup.firstFaceOutOfRange() + " of the PLY file names vertex "
                    + highestFaceIndex + " or another that does not exist; there are " + soup.vertexCount());
        }
        String format = header.encoding() == Encoding.ASCII ? "ply-ascii" : "ply-binary";
        var mesh = soup.toMesh();
        return new PartFile(mesh, format, null, soup.findings());
    }

    private void vertices(Element element) {
        List<Property> properties = element.properties();
        int[] axis = new int[properties.size()];
        int found = 0;
        for (int p = 0; p < axis.length; p++) {
            Property property = properties.get(p);
            axis[p] = property.countType() != null ? -1 : List.of("x", "y", "z").indexOf(property.name());
            found |= axis[p] >= 0 ? 1 << axis[p] : 0;
        }
        if (found != 7) {
            throw Unreadable.syntax("the PLY file's vertices have no x, y and z");
        }
        double[] position = new double[3];
        for (long i = 0; i < element.count(); i++) {
            for (int p = 0; p < axis.length; p++) {
                if (axis[p] >= 0) {
                    position[axis[p]] = coordinate(properties.get(p).type(), i);
                } else {
                    passOver(properties.get(p), element, i);
                }
            }
            soup.addVertex(position[0], position[1], position[2]);
        }
    }

    private double coordinate(Type type, long vertex) {
        double value = values.number(type);
        if (!(Math.abs(value) <= Unreadable.MAX_COORDINATE)) {
            throw Unreadable.coordinate("vertex " + vertex + " (" + values.where() + ")", value, values.token());
        }
        return value;
    }

    private void faces(Element element) {
        List<Property> properties = element.properties();
        int corners = -1;
        for (int p = 0; p < properties.size(); p++) {
            Property property = properties.get(p);
            if (property.countType() != null
                    && (property.name().equals("vertex_indices") || property.name().equals("vertex_index"))) {
                corners = p;
            }
        }
        if (corners < 0) {
            throw Unreadable.syntax("the PLY file's faces have no list vertex_indices");
        }
        for (long i = 0; i < element.count(); i++) {
            for (int p = 0; p < properties.size(); p++) {
                if (p == corners) {
                    face(properties.get(p), element, i);
                } else {
                    passOver(properties.get(p), element, i);
                }
            }
        }
    }

    private void face(Property property, Element element, long face) {
        long length = listLength(property, element, face);
        for (long k = 0; k < length; k++) {
            double index = values.number(property.type());
            if (index != Math.rint(index) || index < 0 || index > Integer.MAX_VALUE - 1) {
                throw Unreadable.index("face " + face + " (" + values.where() + "): "
                        + (values.token() == null ? String.valueOf(index) : Unreadable.printable(values.token()))
                        + " is not a vertex index");
            }
            highestFaceIndex = Math.max(highestFaceIndex, (int) index);
            soup.addCorner((int) index);
        }
        soup.endFace();
    }

    private long listLength(Property property, Element element, long at) {
        double length = values.number(property.countType());
        if (!(length >= 0 && length == Math.rint(length))) {
            throw Unreadable.syntax(element.name() + " " + at + " (" + values.where() + "): a list cannot have "
                    + length + " items");
        }
        values.requireItems((long) length, property.type());
        return (long) length;
    }

    private void passOver(Element element) {
        for (long i = 0; i < element.count(); i++) {
            for (Property property : element.properties()) {
                passOver(property, element, i);
            }
        }
    }

    private void passOver(Property property, Element element, long at) {
        long items = property.countType() == null ? 1 : listLength(property, element, at);
        for (long k = 0; k < items; k++) {
            values.skip(property.type());
        }
    }
}
