package layupmold.geometry.body;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Comparator;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.inspect.MeasuredSolid;
import layupmold.geometry.inspect.WallThickness;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.offset.OffsetSurface;
import layupmold.geometry.recipe.BodySpec;
import layupmold.geometry.recipe.FlangeSpec;
import layupmold.geometry.recipe.NotchSpec;
import layupmold.geometry.recipe.ScrewSpec;
import layupmold.geometry.recipe.Tool;
import layupmold.geometry.shapes.Shapes;
import org.joml.Vector3d;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;

/** A shell under a spherical bowl, whose wall lies between concentric spheres. */
class ShellMoldTest {

    private static final double R = 50;
    private static final double WALL = 3;
    /** What the wall may be thicker than asked, for grid and simplification. */
    private static final double SPARE = 0.12;
    private static final BodySpec SHELL = new BodySpec(BodySpec.Kind.SHELL, WALL);
    private static final FlangeSpec FLANGE = new FlangeSpec(20, 5, 3, 0, 0);

    private static MoldSolid mold;
    private static MeasuredSolid solid;

    @BeforeAll
    static void make() {
        mold = Molds.make(Shapes.bowl(R, 70, 40, 180), Tool.FEMALE, FLANGE, SHELL);
        solid = Molds.sound(mold, FLANGE, SHELL);
    }

    @Test
    void theUndersideIsASphereAroundTheSameCentre() {
        Vector3d centre = mold.placement().apply(new Vector3d());
        int seen = 0;
        for (int t = 0; t < solid.mesh().triangleCount(); t++) {
            for (int k = 0; k < 3; k++) {
                Vector3d p = solid.mesh().corner(t, k).sub(centre);
                if (mold.regions()[t] == MoldRegion.SIDE.ordinal() && p.angle(new Vector3d(0, 0, -1)) < Math.toRadians(65)
                        && p.length() < R + 10) {
                    assertEquals(R + WALL + SPARE / 2, p.length(), SPARE / 2 + 0.02, p.toString());
                    seen++;
                }
            }
        }
        assertTrue(seen > 1000);
    }

    /** By inscribed balls, over the whole solid. */
    @Test
    void theWallIsEven() {
        WallThickness wall = WallThickness.measure(solid, WALL - 0.05);
        assertEquals(0, wall.figures().thinShare(), 1e-5);
        float[] map = wall.map();
        Vector3d centre = mold.placement().apply(new Vector3d());
        for (int t = 0; t < map.length; t++) {
            boolean wallAlone = new Vector3d(solid.mesh().centroid(t)).sub(centre).angle(new Vector3d(0, 0, -1))
                    < Math.toRadians(60);
            if (mold.regions()[t] == MoldRegion.TOOL.ordinal() && wallAlone) {
                assertTrue(map[t] >= WALL - 0.05 && map[t] <= WALL + SPARE, "triangle " + t + ": " + map[t]);
            }
        }
    }

    /**
     * Section times circumference (Pappus) for bowl, flange and plate, plan area times height for rib and feet. The
     * section is what lies below the profile within the wall's thickness of it.
     */
    @Test
    void volumeIsThatOfTheTurnedSectionWithRibAndFeet() {
        double top = mold.mesh().bounds()[5];
        double thick = top - plateBetween(top - WALL - SPARE - 0.01, top - WALL);
        double theta = Math.toRadians(70);
        Coordinate[] profile = new Coordinate[404];
        for (int i = 0; i <= 400; i++) {
            profile[i] = new Coordinate(R * Math.sin(theta * i / 400), -R * Math.cos(theta * i / 400));
        }
        // Half a millimetre of skirt goes on along the bowl, then the wall climbs 3 mm at 5° of draft.
        profile[401] = new Coordinate(profile[400].x + 0.5 * Math.cos(theta), profile[400].y + 0.5 * Math.sin(theta));
        profile[402] = new Coordinate(profile[401].x + 3 * Math.tan(Math.toRadians(5)), profile[401].y + 3);
        profile[403] = new Coordinate(profile[402].x + 20, profile[402].y);
        GeometryFactory plane = new GeometryFactory();
        Geometry near = plane.createLineString(profile).buffer(thick, 64);
        Coordinate[] under = new Coordinate[407];
        System.arraycopy(profile, 0, under, 0, 404);
        under[404] = new Coordinate(profile[403].x, -R - 10);
        under[405] = new Coordinate(0, -R - 10);
        under[406] = profile[0];
        Geometry section = near.intersection(plane.createPolygon(under));
        double turned = 2 * Math.PI * section.getCentroid().getX() * section.getArea();

        double soles = planArea(MoldRegion.BASE, -0.001, 0.001);
        double ribBottom = top - thick - 5;
        double ribs = planArea(MoldRegion.SIDE, ribBottom - 0.001, ribBottom + 0.001);
        double expected = turned + 5 * (ribs + soles) + ribBottom * soles;
        assertEquals(expected, mold.mesh().volume(), 0.005 * expected);
        assertTrue(ribs + soles > Math.PI * (profile[403].x * profile[403].x - Math.pow(profile[403].x - WALL, 2)), "rib");
        // The block: the cylinder of the outline less what is above the profile.
        under[404] = new Coordinate(profile[403].x, -R - WALL);
        under[405] = new Coordinate(0, -R - WALL);
        Geometry block = plane.createPolygon(under);
        double whole = 2 * Math.PI * block.getCentroid().getX() * block.getArea();
        assertEquals(whole, mold.parts().blockMm3(), 2e-3 * whole);
    }

    @Test
    void fourFeetStandLevel() {
        assertEquals(4, solesOf(mold));
        assertEquals(4, mold.parts().feet());
        for (int t = 0; t < mold.regions().length; t++) {
            for (int k = 0; k < 3 && mold.regions()[t] == MoldRegion.BASE.ordinal(); k++) {
                assertEquals(0, mold.mesh().corner(t, k).z);
            }
        }
        double lowest = mold.placement().apply(new Vector3d(0, 0, -R - WALL)).z;
        assertTrue(lowest > 2.5, "the shell itself clears the bed: " + lowest);
        assertTrue(mold.parts().tipDeg() > 30, "tips at " + mold.parts().tipDeg());
    }

    @Test
    void threeFeetIfAskedAndTheSameBytesEachTime() {
        BodySpec three = new BodySpec(BodySpec.Kind.SHELL, 2, 3, 4, new NotchSpec(3, 10, 4, 2), new ScrewSpec(4, 4));
        TriangleMesh bowl = Shapes.bowl(30, 60, 12, 60);
        MoldSolid first = Molds.make(bowl, Tool.FEMALE, FLANGE, three);
        MoldSolid second = Molds.make(bowl, Tool.FEMALE, FLANGE, three);
        assertEquals(3, solesOf(first));
        assertEquals(List.of(3, 4), List.of(first.parts().notches(), first.parts().screwHoles()));
        assertArrayEquals(first.mesh().xyz(), second.mesh().xyz());
        assertArrayEquals(first.mesh().triangles(), second.mesh().triangles());
    }

    /** A bowl sheared sideways, so that it reaches 18 mm past its edge, under a border of 15 mm. */
    @Test
    void whatBulgesUnderTheBorderLeavesRoomForTheRib() {
        TriangleMesh bowl = Shapes.bowl(R, 70, 40, 180);
        double[] xyz = bowl.xyz().clone();
        double rim = -R * Math.cos(Math.toRadians(70));
        for (int i = 0; i < xyz.length; i += 3) {
            xyz[i] += 1.5 * (rim - xyz[i + 2]);
        }
        FlangeSpec narrow = new FlangeSpec(15, 5, 3, 0, 0);
        Molds.sound(Molds.make(new TriangleMesh(xyz, bowl.triangles()), Tool.FEMALE, narrow, SHELL), narrow, SHELL);
    }

    /** The border of a plug, its lowest place, comes out of the offset level but for rounding. */
    @ParameterizedTest
    @ValueSource(doubles = {0x1p-14, 0.001, 0.004})
    void aPlugsBorderMayTrembleByLittle(double trembleMm) {
        TriangleMesh bowl = Shapes.bowl(30, 70, 12, 60);
        double[] dome = Molds.LATTICE.round(bowl.xyz().clone());
        for (int i = 2; i < dome.length; i += 3) {
            dome[i] = -dome[i];
        }
        OffsetSurface plug = Molds.surface(new TriangleMesh(dome, bowl.triangles()), Tool.MALE, FLANGE, SHELL);
        double border = plug.mesh().bounds()[2];
        double[] xyz = plug.mesh().xyz().clone();
        SplittableRandom random = new SplittableRandom(1);
        for (int i = 2; i < xyz.length; i += 3) {
            xyz[i] += xyz[i] == border ? trembleMm * random.nextInt(3) : 0;
        }
        MoldSolid made = BodyBuilder.build(new OffsetSurface(new TriangleMesh(xyz, plug.mesh().triangles()),
                plug.regions(), plug.outline(), plug.method(), 0, plug.worst(), List.of()), SHELL, Molds.LATTICE);
        Molds.sound(made, FLANGE, SHELL);
    }

    @Test
    void aBorderTooNarrowForFeetIsRefusedWithAdvice() {
        Rejection rejection = assertThrows(Rejection.class,
                () -> Molds.make(Shapes.bowl(30, 60, 12, 60), Tool.FEMALE, new FlangeSpec(4, 5, 3, 0, 0), SHELL));
        assertTrue(List.of("border-too-narrow", "no-room-for-feet").contains(rejection.finding().code()));
        assertTrue(rejection.finding().advice().contains("wider flange"));
    }

    /** Height of the border's underside: of the largest triangle that faces down there. */
    private static double plateBetween(double from, double to) {
        return IntStream.range(0, mold.regions().length).filter(t -> mold.regions()[t] == MoldRegion.SIDE.ordinal())
                .filter(t -> mold.mesh().centroid(t).z > from && mold.mesh().centroid(t).z < to).boxed()
                .min(Comparator.comparingDouble(t -> mold.mesh().areaNormal(t).z))
                .map(t -> mold.mesh().centroid(t).z).orElseThrow();
    }

    private static double planArea(MoldRegion region, double from, double to) {
        return IntStream.range(0, mold.regions().length)
                .filter(t -> mold.regions()[t] == region.ordinal())
                .filter(t -> mold.mesh().centroid(t).z > from && mold.mesh().centroid(t).z < to)
                .mapToDouble(t -> -mold.mesh().areaNormal(t).z / 2).sum();
    }

    /** Pieces of the base. */
    private static int solesOf(MoldSolid of) {
        int[] parent = IntStream.range(0, of.mesh().vertexCount()).toArray();
        boolean[] used = new boolean[parent.length];
        for (int t = 0; t < of.regions().length; t++) {
            for (int k = 0; k < 3 && of.regions()[t] == MoldRegion.BASE.ordinal(); k++) {
                used[of.mesh().triangles()[3 * t + k]] = true;
                parent[root(parent, of.mesh().triangles()[3 * t + k])] = root(parent, of.mesh().triangles()[3 * t]);
            }
        }
        return (int) IntStream.range(0, parent.length).filter(v -> used[v] && parent[v] == v).count();
    }

    private static int root(int[] parent, int v) {
        int r = v;
        while (parent[r] != r) {
            r = parent[r];
        }
        return r;
    }
}
