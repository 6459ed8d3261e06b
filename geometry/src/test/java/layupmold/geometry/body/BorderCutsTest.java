package layupmold.geometry.body;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.BodySpec;
import layupmold.geometry.recipe.FlangeSpec;
import layupmold.geometry.recipe.NotchSpec;
import layupmold.geometry.recipe.ScrewSpec;
import layupmold.geometry.recipe.Tool;
import layupmold.geometry.shapes.Shapes;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Notches and screw holes, in a border around a square sheet, whose outline has straight stretches. */
class BorderCutsTest {

    private static final FlangeSpec FLANGE = new FlangeSpec(20, 5, 10, 0, 0);
    private static final TriangleMesh SQUARE = Shapes.sheet(60, 6);

    private static BodySpec block(NotchSpec notches, ScrewSpec screws) {
        return new BodySpec(BodySpec.Kind.BLOCK, 3, 4, 5, notches, screws);
    }

    private static MoldSolid sound(BodySpec spec) {
        MoldSolid mold = Molds.make(SQUARE, Tool.FEMALE, FLANGE, spec);
        Molds.sound(mold, FLANGE, spec);
        return mold;
    }

    /** A box is cut out: width × depth × height. */
    @Test
    void aNotchOnAStraightStretchTakesItsBoxAway() {
        double whole = sound(block(NotchSpec.none(), ScrewSpec.none())).mesh().volume();
        for (int count : new int[] {1, 2, 4}) {
            MoldSolid mold = sound(block(new NotchSpec(count, 12, 5, 2), ScrewSpec.none()));
            assertEquals(count, mold.parts().notches());
            assertEquals(whole - count * 12 * 5 * 2, mold.mesh().volume(), count * 0.2);
            assertEquals(whole, mold.parts().blockMm3(), 1e-6 * whole);
        }
    }

    /** A regular 48-gon about the circle has the area n r² tan(π / n): Bronshtein et al., Handbook, from memory. */
    @Test
    void aScrewHoleGoesThrough() {
        double whole = sound(block(NotchSpec.none(), ScrewSpec.none())).mesh().volume();
        MoldSolid mold = sound(block(NotchSpec.none(), new ScrewSpec(4, 6)));
        double area = 48 * 9 * Math.tan(Math.PI / 48);
        assertEquals(4, mold.parts().screwHoles());
        assertEquals(whole - 4 * area * mold.mesh().bounds()[5], mold.mesh().volume(), 0.05);
        // A torus with four holes: V − E + F = 2 − 2g, and E = 3F / 2.
        assertEquals(2 - 2 * 4, mold.mesh().vertexCount() - mold.mesh().triangleCount() / 2);
    }

    @Test
    void notchesAndHolesKeepOffEachOther() {
        BodySpec spec = block(NotchSpec.defaults(), new ScrewSpec(12, 5));
        MoldSolid mold = sound(spec);
        assertEquals(List.of(2, 12), List.of(mold.parts().notches(), mold.parts().screwHoles()));
        assertEquals(List.of(), mold.findings());
    }

    @Test
    void whatFindsNoRoomIsLeftOutAndSaid() {
        BodySpec spec = block(NotchSpec.defaults(), new ScrewSpec(2, 5));
        FlangeSpec narrow = new FlangeSpec(6, 5, 3, 0, 0);
        MoldSolid mold = Molds.make(SQUARE, Tool.FEMALE, narrow, spec);
        Molds.sound(mold, narrow, spec);
        assertEquals(List.of("notches-left-out", "screw-holes-left-out"),
                mold.findings().stream().map(finding -> finding.code()).toList());
        assertEquals(List.of(0, 0), List.of(mold.parts().notches(), mold.parts().screwHoles()));
    }

    /** Round, tilted, crooked and bulging borders. */
    @ParameterizedTest
    @EnumSource(BodySpec.Kind.class)
    void aroundRoughPerimeters(BodySpec.Kind kind) {
        BodySpec spec = new BodySpec(kind, 2.5, 3, 5, NotchSpec.defaults(), new ScrewSpec(2, 4));
        FlangeSpec flange = new FlangeSpec(22, 5, 3, 2, 0.3);
        TriangleMesh bowl = Shapes.bowl(40, 70, 16, 96);
        check(bowl, Tool.FEMALE, flange, spec);
        check(Shapes.bent(bowl, p -> new Vector3d(p.x, p.y, -p.z)), Tool.MALE, flange, spec);
        // A heel cup: a bowl whose mouth is a U seen from the side.
        check(Shapes.bent(Shapes.bowl(40, 85, 16, 96), p -> new Vector3d(p.x, p.y,
                p.z + 25 * Math.max(0, (p.z + 40) / 40) * Math.max(0, -p.x / 40))), Tool.FEMALE, flange, spec);
        TriangleMesh sheet = Shapes.sheet(40, 20);
        check(Shapes.bent(sheet, p -> new Vector3d(p.x, p.y, Math.tan(Math.toRadians(35)) * p.x + 2 * Math.sin(p.y / 3))),
                Tool.FEMALE, flange, spec);
        // A horseshoe whose arms are nearer to each other than two flanges.
        check(Shapes.bent(sheet, p -> {
            double radius = 32 - p.y / 2;
            double angle = Math.PI * p.x / 40 * 1.4;
            return new Vector3d(radius * Math.cos(angle), radius * Math.sin(angle), 4 * Math.sin(2 * angle));
        }), Tool.FEMALE, flange, spec);
        check(Shapes.bowl(40, 115, 24, 96), Tool.FEMALE, flange, spec);
    }

    private static void check(TriangleMesh tool, Tool side, FlangeSpec flange, BodySpec spec) {
        MoldSolid mold = Molds.make(tool, side, flange, spec);
        Molds.sound(mold, flange, spec);
        assertEquals(spec.kind() == BodySpec.Kind.SHELL ? spec.feet() : 0, mold.parts().feet());
        assertTrue(mold.parts().tipDeg() > 5);
        for (byte region : mold.regions()) {
            if (region == MoldRegion.RECESS.ordinal()) {
                return;
            }
        }
        assertEquals(0, mold.parts().notches() + mold.parts().screwHoles());
    }
}
