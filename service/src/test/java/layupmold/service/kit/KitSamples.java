package layupmold.service.kit;

import layupmold.geometry.RigidTransform;
import layupmold.geometry.drape.ToolSheet;
import layupmold.geometry.kit.KitSpec;
import layupmold.geometry.kit.LayupKit;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.Layup;

/** Kits for tests. */
final class KitSamples {

    private KitSamples() {
    }

    /** A shallow dome of 260 × 180 mm, 30 mm high. */
    static LayupKit dome(String name) {
        return dome(name, 30);
    }

    static LayupKit dome(String name, double height) {
        int cells = 60;
        double[] xyz = new double[3 * (cells + 1) * (cells + 1)];
        int[] triangles = new int[6 * cells * cells];
        int n = 0;
        for (int i = 0; i <= cells; i++) {
            for (int j = 0; j <= cells; j++) {
                int v = i * (cells + 1) + j;
                double x = 2.0 * j / cells - 1;
                double y = 2.0 * i / cells - 1;
                xyz[3 * v] = 130 * x;
                xyz[3 * v + 1] = 90 * y;
                xyz[3 * v + 2] = -height * (1 - x * x) * (1 - y * y);
                if (i < cells && j < cells) {
                    for (int corner : new int[] {v, v + 1, v + cells + 2, v, v + cells + 2, v + cells + 1}) {
                        triangles[n++] = corner;
                    }
                }
            }
        }
        return LayupKit.of(name, ToolSheet.of(new TriangleMesh(xyz, triangles)), Layup.defaults(), KitSpec.defaults(),
                RigidTransform.identity());
    }
}
