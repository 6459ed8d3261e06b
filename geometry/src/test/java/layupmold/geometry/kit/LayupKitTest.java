package layupmold.geometry.kit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.RigidTransform;
import layupmold.geometry.drape.ToolSheet;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.Layup;
import layupmold.geometry.recipe.Ply;
import layupmold.geometry.shapes.Shapes;
import org.junit.jupiter.api.Test;

class LayupKitTest {

    private static LayupKit plate(String name, double size, Layup layup) {
        return LayupKit.of(name, ToolSheet.of(Shapes.sheet(size, 40)), layup, KitSpec.defaults(),
                RigidTransform.identity());
    }

    /** A flat plate of 0.01 m²: laminate of 2 × 210 g/m² cloth and as much resin weighs 8.4 g. */
    @Test
    void plateByHand() {
        LayupKit kit = plate("plate", 100, Layup.defaults());
        assertEquals(8.4, kit.partG(), 1e-9);
        assertEquals(2, kit.templates().size());
        double cloth = 100 * 100 + 4 * 100 * 20 + Math.PI * 400;
        assertEquals(2 * 210 * cloth * 1e-6, kit.resin().clothG(), 0.01);
        assertTrue(kit.findings().isEmpty(), kit.findings().toString());
    }

    @Test
    void pliesOfOneDirectionShareTheirDrape() {
        Layup layup = new Layup(List.of(Ply.carbonTwill(0), Ply.carbonTwill(45), Ply.carbonTwill(0)), 0.5, 1.15, 0);
        LayupKit kit = plate("plate", 100, layup);
        assertSame(kit.drapes().get(0), kit.drapes().get(2));
        assertEquals(3, kit.templates().get(2).number());
        // Bent to a corner, all three span it: two directions, two findings, each naming its plies.
        LayupKit bent = LayupKit.of("corner", ToolSheet.of(corner()), layup, KitSpec.defaults(),
                RigidTransform.identity());
        assertEquals(List.of("Plies 1, 3: ", "Ply 2: "), bent.findings().stream()
                .filter(f -> f.code().equals("cloth-bridges"))
                .map(f -> f.message().substring(0, f.message().indexOf(':') + 2)).toList());
    }

    private static TriangleMesh corner() {
        TriangleMesh flat = Shapes.sheet(100, 60);
        double[] xyz = flat.xyz().clone();
        for (int k = 0; k < xyz.length; k += 3) {
            xyz[k + 2] = Math.abs(xyz[k] - 50);
        }
        return new TriangleMesh(xyz, flat.triangles());
    }

    /** Plies of two parts share a roll; their layout is no longer than one after the other. */
    @Test
    void suitSharesARoll() {
        LayupKit a = plate("a", 150, Layup.defaults());
        LayupKit b = plate("b", 250, Layup.defaults());
        List<PlyTemplate> all = new ArrayList<>(a.templates());
        all.addAll(b.templates());
        List<ClothLayouts.ClothLayout> together = ClothLayouts.of(all, KitSpec.defaults());
        assertEquals(1, together.size());
        assertEquals(4, together.get(0).layout().placed().size());
        double apart = ClothLayouts.of(a.templates(), KitSpec.defaults()).get(0).layout().lengthMm()
                + ClothLayouts.of(b.templates(), KitSpec.defaults()).get(0).layout().lengthMm();
        assertTrue(together.get(0).layout().lengthMm() <= apart);
        List<ClothLayouts.ClothLayout> narrow = ClothLayouts.of(all, KitSpec.defaults().withRoll(200));
        assertTrue(narrow.get(0).findings().stream().anyMatch(f -> f.code().equals("piece-wider-than-roll")));
    }
}
