package layupmold.geometry.opening;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.mesh.TriangleMesh;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.ShrinkingMode;

/** Random openings in random faces: the capped face is always sound, and so is the engraved one. */
class OpeningCapperProperties {

    @Property(tries = 15, shrinking = ShrinkingMode.OFF)
    void petalsInAWavySheet(@ForAll long seed) {
        Random random = new Random(seed);
        double height = 8 * random.nextDouble();
        double frequency = 0.1 + 0.2 * random.nextDouble();
        double[] hole = HoledSheet.flower(5 + 13 * random.nextDouble(), 2 + random.nextInt(7),
                0.8 * random.nextDouble(), 12 + random.nextInt(200));
        assertAlwaysSound(HoledSheet.of(35, 1.5 + random.nextDouble(), List.of(hole),
                (u, v) -> new double[] {u, v, height * Math.sin(frequency * u) * Math.cos(frequency * v)}), random);
    }

    @Property(tries = 15, shrinking = ShrinkingMode.OFF)
    void ellipsesAcrossACrease(@ForAll long seed) {
        Random random = new Random(seed);
        double slope = 2 * random.nextDouble();
        double crease = 10 * random.nextDouble();
        double[] hole = HoledSheet.ellipse(0, 0, 2 + 15 * random.nextDouble(), 2 + 15 * random.nextDouble(),
                8 + random.nextInt(150));
        assertAlwaysSound(HoledSheet.of(30, 1.5 + random.nextDouble(), List.of(hole),
                (u, v) -> new double[] {u, v, slope * Math.abs(u - crease)}), random);
    }

    @Property(tries = 15, shrinking = ShrinkingMode.OFF)
    void ellipsesAroundACylinder(@ForAll long seed) {
        Random random = new Random(seed);
        double radius = 9 + 20 * random.nextDouble();
        double widest = Math.min(25, 2.6 * radius);
        double[] hole = HoledSheet.ellipse(0, 0, widest * (0.2 + 0.8 * random.nextDouble()),
                2 + 20 * random.nextDouble(), 20 + random.nextInt(200));
        assertAlwaysSound(HoledSheet.of(28, 1.2 + random.nextDouble(), List.of(hole),
                (u, v) -> new double[] {radius * Math.sin(u / radius), v, radius * Math.cos(u / radius)}), random);
    }

    private static void assertAlwaysSound(HoledSheet sheet, Random random) {
        double width = 0.3 + 2 * random.nextDouble();
        double depth = (random.nextBoolean() ? width : -width) / 3;
        CappedFace capped = sheet.capped(width, depth);
        OpeningCapperTest.assertSound(sheet, capped);
        assertEquals(1, capped.caps().size());
        boolean hasRing = !capped.caps().get(0).trimRings().isEmpty();
        assertTrue(hasRing != capped.findings().stream().anyMatch(f -> f.code().equals("trim-mark-does-not-fit")));
        TriangleMesh engraved = TrimEngraving.engrave(capped, depth);
        assertEquals(0, SelfIntersections.findInvolving(engraved, sheet.mesh.triangleCount(), 1).length);
    }
}
