package layupmold.geometry.drape;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import layupmold.geometry.RigidTransform;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.Weave;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;

/** Sheets as makers have them: steep bumps, noise, slivers, ragged outlines. Seeded. */
class RoughSheetTest {

    private static TriangleMesh rough(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        int bumps = 1 + random.nextInt(5);
        double[] p = random.doubles(4L * bumps).toArray();
        double noise = random.nextInt(3) * 0.05;
        double squeeze = 1 + 15 * random.nextInt(2);
        TriangleMesh sheet = Sheets.bent(200, 110, (x0, y0) -> {
            // Crowding the grid in x makes long thin triangles.
            double x = 100 * Math.signum(x0) * Math.pow(Math.abs(x0) / 100, 1 + squeeze / 20);
            double z = 0;
            for (int k = 0; k < 4 * bumps; k += 4) {
                double r = Math.hypot(x - 160 * (p[k] - 0.5), y0 - 160 * (p[k + 1] - 0.5)) / (25 + 50 * p[k + 2]);
                z += (60 * p[k + 3] - 20) * Math.exp(-r * r);
            }
            return new Vector3d(x, y0, z + noise * Math.sin(137 * x + 91 * y0));
        });
        double bite = 40 + 60 * random.nextDouble();
        return Sheets.cut(sheet, c -> Math.hypot(c.x - 100, c.y - 100) > bite && Math.hypot(c.x, c.y) < 130);
    }

    @Test
    void clothIsWholeOrItsHolesAreNamed() {
        double worst = 0;
        int whole = 0;
        for (long seed = 1; seed <= 60; seed++) {
            DrapedPly ply = Drape.ply(ToolSheet.of(rough(seed)),
                    new DrapeSpec(Weave.TWILL_2X2, 30 * seed, null, 3, 50, 0.9), RigidTransform.identity());
            DrapeFigures f = ply.figures();
            double bare = f.uncoveredMm2() / f.surfaceMm2();
            if (bare > 1e-3) {
                assertTrue(ply.findings().stream().anyMatch(x -> x.code().equals("cloth-does-not-reach")), "seed " + seed);
                assertTrue(f.maxShearDeg() > 60, "seed " + seed + " bare at a shear of " + f.maxShearDeg());
                continue;
            }
            whole++;
            worst = Math.max(worst, Math.abs(f.areaImbalance()));
        }
        assertTrue(whole >= 50, whole + " whole");
        assertEquals(0, worst, 0.01);
    }
}
