package layupmold.geometry.opening;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import layupmold.geometry.MoldOutcome;
import layupmold.geometry.MoldPipeline;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.Progress;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.PartFile;
import layupmold.geometry.recipe.LengthUnit;
import layupmold.geometry.recipe.OpeningSpec;
import layupmold.geometry.recipe.Recipe;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class NearestOpeningsTest {

    /** The point lies inside the wide opening, far from its edge and not so far from the narrow one's. */
    @Test
    void aPointInAWideOpeningMeansThatOne() {
        HoledSheet sheet = HoledSheet.of(40, 4,
                List.of(HoledSheet.circle(0, 0, 20, 60), HoledSheet.circle(23, 0, 2, 24)), (u, v) -> new double[] {u, v, 0});
        int wide = widest(sheet);
        assertArrayEquals(only(wide), meant(sheet, new Vector3d(0, 0, 1)));
        assertArrayEquals(only(wide), meant(sheet, new Vector3d(19.4, 0, 1)));
        assertArrayEquals(only(1 - wide), meant(sheet, new Vector3d(23, 0, 1)));
        assertArrayEquals(new boolean[2], meant(sheet));
    }

    /** Posted in centimetres: the point is in the posted mesh's unit, as the mesh is. */
    @ParameterizedTest
    @EnumSource(OpeningSpec.Kind.class)
    void oneOfTwoOpeningsIsMadeTheOtherWay(OpeningSpec.Kind kind) {
        HoledSheet sheet = HoledSheet.of(4, 0.5, List.of(HoledSheet.circle(-1.5, 0, 0.8, 40),
                HoledSheet.circle(1.5, 0, 0.8, 40)), (u, v) -> new double[] {u, v, 0});
        OpeningSpec spec = new OpeningSpec(kind, 4, 5, List.of(new Vector3d(1.6, 0.1, 0.2)));
        MoldOutcome.Mold mold = assertInstanceOf(MoldOutcome.Mold.class, MoldPipeline.make(
                new PartFile(sheet.mesh, "3mf", LengthUnit.CM, List.of()),
                Recipe.defaults().withPull(new Vector3d(0, 0, 1)).withOpenings(spec), Progress.SILENT));
        assertEquals(1, mold.report().openings().plugged());
        assertEquals(1, mold.report().openings().capped());
        TriangleMesh onPart = mold.partToMold().inverse().apply(mold.solid());
        double plugX = kind == OpeningSpec.Kind.CAP ? 15 : -15;
        for (int t = 0; t < onPart.triangleCount(); t++) {
            if (mold.regions()[t] == MoldRegion.PLUG.ordinal()) {
                Vector3d middle = onPart.centroid(t);
                assertTrue(Math.hypot(middle.x - plugX, middle.y) <= 8, middle.toString());
            }
        }
    }

    private static boolean[] meant(HoledSheet sheet, Vector3d... points) {
        return NearestOpenings.of(sheet.mesh, sheet.topology, sheet.openings, Arrays.asList(points));
    }

    private static int widest(HoledSheet sheet) {
        return sheet.openings.get(0).length > sheet.openings.get(1).length ? 0 : 1;
    }

    private static boolean[] only(int opening) {
        return new boolean[] {opening == 0, opening == 1};
    }
}
