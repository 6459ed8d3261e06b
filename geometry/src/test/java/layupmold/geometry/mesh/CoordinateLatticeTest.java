package layupmold.geometry.mesh;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;

class CoordinateLatticeTest {

    /** IEEE 754 binary32 keeps 24 significant bits: what is rounded to the lattice survives the cast, shifted or not. */
    @Property
    void floatsKeepLatticeCoordinates(
            @ForAll @DoubleRange(min = -900, max = 900) double mm,
            @ForAll @DoubleRange(min = 0, max = 900) double extent) {
        CoordinateLattice lattice = CoordinateLattice.within(Math.max(extent, Math.abs(mm) + 1));
        double rounded = lattice.round(mm);
        assertEquals(rounded, (double) (float) rounded);
        assertTrue(Math.abs(rounded - mm) <= lattice.stepMm() / 2);
        double below = lattice.below(mm);
        assertTrue(below <= mm && mm - below < lattice.stepMm());
        assertEquals(below, (double) (float) below);
    }

    @Property
    void aLargerSolidGetsACoarserLattice(@ForAll @DoubleRange(min = 1100, max = 1e6) double extent) {
        CoordinateLattice lattice = CoordinateLattice.within(extent);
        assertTrue(lattice.stepMm() > CoordinateLattice.within(500).stepMm());
        assertTrue(lattice.stepMm() * 0x1p24 >= extent);
        assertTrue(lattice.stepMm() * 0x1p23 < extent, "no coarser than needed");
    }
}
