package layupmold.samples;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.StlWriter;

/** A small suit: a lopsided dish and its mirror image, with both forms of the manifest. */
final class Dishes {

    private Dishes() {
    }

    static void write(Path folder) throws IOException {
        write(dish(1), folder.resolve("left.stl"));
        write(dish(-1), folder.resolve("right.stl"));
        Files.writeString(folder.resolve("suit.json"), """
                {"title": "Dishes", "parts": [
                  {"name": "left", "file": "left.stl", "recipe": {"title": "Left dish"}},
                  {"name": "right", "file": "right.stl", "mirrorOf": "left", "quantity": 2}]}
                """);
        Files.writeString(folder.resolve("suit.csv"), "part,file,mirror_of,quantity,recipe.title\n"
                + "left,left.stl,,1,Left dish\nright,right.stl,left,2,\n");
    }

    /** An open sheet without any symmetry: a shallow lopsided dish. */
    private static TriangleMesh dish(int side) {
        int rings = 12;
        int segments = 48;
        double[] xyz = new double[3 * (1 + rings * segments)];
        int[] triangles = new int[3 * segments * (2 * rings - 1)];
        xyz[2] = 14;
        int at = 0;
        for (int i = 1; i <= rings; i++) {
            for (int j = 0; j < segments; j++) {
                double r = (double) i / rings;
                double angle = 2 * Math.PI * j / segments;
                int v = 1 + (i - 1) * segments + j;
                xyz[3 * v] = side * 40 * r * Math.cos(angle) * (1 + 0.1 * Math.sin(angle));
                xyz[3 * v + 1] = 28 * r * Math.sin(angle) * (1 + 0.15 * Math.cos(angle));
                xyz[3 * v + 2] = 14 * (1 - r * r);
                int next = 1 + (i - 1) * segments + (j + 1) % segments;
                int inner = i == 1 ? 0 : v - segments;
                int innerNext = i == 1 ? 0 : next - segments;
                for (int corner : i == 1 ? new int[] {0, v, next} : new int[] {inner, v, next, inner, next, innerNext}) {
                    triangles[at++] = corner;
                }
            }
        }
        TriangleMesh mesh = new TriangleMesh(xyz, triangles);
        return side < 0 ? mesh.flipped() : mesh;
    }

    private static void write(TriangleMesh mesh, Path file) throws IOException {
        try (OutputStream out = Files.newOutputStream(file)) {
            StlWriter.write(mesh, "dish, mm", out);
        }
    }
}
