package layupmold.geometry.mesh.io;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.LengthUnit;

/** One model part of a 3MF file: its objects by id and what its build wants made. */
final class ThreeMfModel {

    /** A use of an object: {@code part} is the model part it lives in, {@code transform} twelve numbers row by row. */
    record Use(String part, long objectId, double[] transform) {
    }

    /** An object: a mesh, or uses of other objects; {@code printed} is false for supports. */
    record Body(TriangleMesh mesh, List<Use> components, boolean printed) {
    }

    LengthUnit unit = LengthUnit.MM;
    final Map<Long, Body> bodies = new HashMap<>();
    final List<Use> build = new ArrayList<>();
    /** Namespace of a required extension that is not understood, or null. */
    String unknownExtension;
}
