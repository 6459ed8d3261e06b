package layupmold.geometry.mesh.io;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * 3MF (3MF Core Specification 1.3): finds the model part by the package's relationships and places every object of the
 * build with its nested components; a mirroring transform turns the triangles around so that outside stays outside.
 */
final class ThreeMfReader {

    private static final String MODEL_RELATIONSHIP = "http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel";
    private static final String RELATIONSHIPS = "/_rels/.rels";
    private static final int MOST_PLACINGS = 100_000;
    private static final int MOST_NESTING = 32;

    private final Map<String, ThreeMfModel> models = new HashMap<>();
    private final PolygonSoup placed;
    private int placings;
    private int supports;

    private ThreeMfReader(MeshLimits limits) {
        placed = new PolygonSoup(limits);
    }

    static PartFile read(byte[] bytes, MeshLimits limits) {
        return new ThreeMfReader(limits).read(new OpcPackage(bytes, limits), limits);
    }

    private PartFile read(OpcPackage archive, MeshLimits limits) {
        String root = rootModel(archive);
        archive.visit(name -> name.equals(root) || name.endsWith(".model"),
                (name, content) -> models.put(name, ThreeMfModelParser.parse(name, content, limits)));
        ThreeMfModel model = model(root);
        for (ThreeMfModel.Use item : model.build) {
            place(item, new Placing(1, 0, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0), 0);
        }
        if (placed.faceCount() == 0) {
            throw Unreadable.empty("the 3MF file's build has " + model.build.size() + " items and no triangles");
        }
        TriangleMesh mesh = placed.toMesh();
        List<Finding> findings = new ArrayList<>();
        if (supports > 0) {
            findings.add(Finding.info("read", "supports-left-out", supports + " support objects were left out"));
        }
        return new PartFile(mesh, "3mf", model.unit, findings);
    }

    private static String rootModel(OpcPackage archive) {
        String[] target = new String[1];
        archive.visit(RELATIONSHIPS::equals, (name, content) -> {
            XmlPart part = new XmlPart(name, content);
            while (part.next()) {
                if (part.atStart() && part.xml().getLocalName().equals("Relationship")
                        && MODEL_RELATIONSHIP.equals(part.xml().getAttributeValue(null, "Type"))) {
                    target[0] = part.xml().getAttributeValue(null, "Target");
                }
            }
        });
        if (target[0] == null) {
            throw structure("the archive has no relationship to a 3D model, so it is no 3MF file");
        }
        return OpcPackage.normal(target[0]);
    }

    private ThreeMfModel model(String name) {
        ThreeMfModel model = models.get(name);
        if (model == null) {
            throw structure("the 3MF file names the model part " + Unreadable.printable(name)
                    + ", which it does not hold");
        }
        if (model.unknownExtension != null) {
            throw Unreadable.because("unsupported-extension",
                    "the 3MF file needs the extension " + model.unknownExtension + ", which is not understood",
                    "Export it as a plain mesh.");
        }
        return model;
    }

    private void place(ThreeMfModel.Use use, Placing outer, int depth) {
        ThreeMfModel.Body body = model(use.part()).bodies.get(use.objectId());
        if (body == null) {
            throw structure("the 3MF file uses object " + use.objectId() + ", which does not exist");
        }
        if (depth > MOST_NESTING || ++placings > MOST_PLACINGS) {
            throw structure("the 3MF file's components are nested more than " + MOST_NESTING
                    + " deep, in a circle, or placed more than " + MOST_PLACINGS + " times");
        }
        if (!body.printed()) {
            supports++;
            return;
        }
        Placing placing = use.transform() == null ? outer : Placing.of(use.transform()).then(outer);
        place(body.mesh(), placing);
        for (ThreeMfModel.Use component : body.components()) {
            place(component, placing, depth + 1);
        }
    }

    private void place(TriangleMesh mesh, Placing placing) {
        if (mesh.triangleCount() == 0) {
            return;
        }
        double determinant = placing.determinant();
        if (!(Math.abs(determinant) > 1e-30)) {
            throw structure("a transform in the 3MF file flattens its object");
        }
        int first = placed.vertexCount();
        double[] xyz = mesh.xyz();
        for (int i = 0; i < xyz.length; i += 3) {
            placed.addVertex(checked(placing.x(xyz, i)), checked(placing.y(xyz, i)), checked(placing.z(xyz, i)));
        }
        int[] triangles = mesh.triangles();
        int second = determinant < 0 ? 2 : 1;
        for (int t = 0; t < triangles.length; t += 3) {
            placed.addCorner(first + triangles[t]);
            placed.addCorner(first + triangles[t + second]);
            placed.addCorner(first + triangles[t + 3 - second]);
            placed.endFace();
        }
    }

    private static double checked(double coordinate) {
        if (!(Math.abs(coordinate) <= Unreadable.MAX_COORDINATE)) {
            throw Unreadable.coordinate("after placing the 3MF file's objects", coordinate, null);
        }
        return coordinate;
    }

    private static Rejection structure(String message) {
        return Unreadable.because("bad-structure", message, "Export the file again, as plain objects.");
    }

    /** An affine map in 3MF's row-vector order: x' = a x + d y + g z + tx, and so on. */
    private record Placing(double a, double b, double c, double d, double e, double f, double g, double h, double i,
            double tx, double ty, double tz) {

        static Placing of(double[] m) {
            return new Placing(m[0], m[1], m[2], m[3], m[4], m[5], m[6], m[7], m[8], m[9], m[10], m[11]);
        }

        /** This map, then {@code o}. */
        Placing then(Placing o) {
            return new Placing(
                    a * o.a + b * o.d + c * o.g, a * o.b + b * o.e + c * o.h, a * o.c + b * o.f + c * o.i,
                    d * o.a + e * o.d + f * o.g, d * o.b + e * o.e + f * o.h, d * o.c + e * o.f + f * o.i,
                    g * o.a + h * o.d + i * o.g, g * o.b + h * o.e + i * o.h, g * o.c + h * o.f + i * o.i,
                    tx * o.a + ty * o.d + tz * o.g + o.tx, tx * o.b + ty * o.e + tz * o.h + o.ty,
                    tx * o.c + ty * o.f + tz * o.i + o.tz);
        }

        double determinant() {
            return a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
        }

        double x(double[] p, int k) {
            return a * p[k] + d * p[k + 1] + g * p[k + 2] + tx;
        }

        double y(double[] p, int k) {
            return b * p[k] + e * p[k + 1] + h * p[k + 2] + ty;
        }

        double z(double[] p, int k) {
            return c * p[k] + f * p[k + 1] + i * p[k + 2] + tz;
        }
    }
}
