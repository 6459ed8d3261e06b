package layupmold.geometry.testparts;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.shape.ShellRegion;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class RandomShellsTest {

    @Test
    void everyShellIsClosedAndFullyLabelled() {
        for (long seed = 0; seed < 150; seed++) {
            TestPart part = RandomShells.shell(seed);
            EdgeTopology topology = EdgeTopology.of(part.mesh());
            assertTrue(topology.isClosedAndOriented(), part::toString);
            assertEquals(0, topology.nonManifoldVertices(part.mesh().vertexCount()).length, part::toString);
            assertEquals(part.mesh().triangleCount(), part.truth().length);
            boolean insideOut = part.mesh().volume() < 0;
            assertEquals(ShellSpec.random(seed).insideOut(), insideOut, part::toString);
        }
    }

    @Test
    void sameSeedGivesTheSameBytes() {
        TestPart first = RandomShells.shell(7);
        TestPart second = RandomShells.shell(7);
        assertArrayEquals(first.mesh().xyz(), second.mesh().xyz());
        assertArrayEquals(first.mesh().triangles(), second.mesh().triangles());
        assertArrayEquals(first.truth(), second.truth());
    }

    /** Euler: a shell with k openings is a sphere with k + 1 − 1 handles, so V − E + F = 2 − 2k. */
    @ParameterizedTest
    @EnumSource(BaseShape.class)
    void openingsAreHandles(BaseShape base) {
        TestPart part = RandomShells.shell(ShellSpec.plain(base, 11).withOpenings(2));
        int faces = part.mesh().triangleCount();
        int euler = part.mesh().vertexCount() - faces * 3 / 2 + faces;
        assertEquals(2 - 2 * part.openings(), euler);
    }

    /** The wall's volume lies near mean wall area times thickness where the wall is even and thin. */
    @ParameterizedTest
    @EnumSource(BaseShape.class)
    void evenWallHasTheVolumeOfASlab(BaseShape base) {
        TestPart part = RandomShells.shell(ShellSpec.plain(base, 3).withRim(ShellSpec.RimKind.SHARP)
                .withThickness(3, 3).withSpacing(1));
        double mean = (part.areaOf(ShellRegion.OUTER) + part.areaOf(ShellRegion.INNER)) / 2;
        assertEquals(1, part.mesh().volume() / (3 * mean), 0.015, part::toString);
    }

    @Test
    void outerWallLooksAwayFromThePull() {
        for (BaseShape base : BaseShape.values()) {
            TestPart part = RandomShells.shell(ShellSpec.plain(base, 5).withPlacement(ShellSpec.Placement.TURNED));
            double along = 0;
            for (int t = 0; t < part.truth().length; t++) {
                if (part.region(t) == ShellRegion.OUTER) {
                    along += part.mesh().areaNormal(t).dot(part.pull()) / 2;
                }
            }
            assertTrue(along < -0.3 * part.areaOf(ShellRegion.OUTER), part::toString);
        }
    }
}
