package layupmold.geometry.simplify;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;

class BoxGridsTest {

    private record Box(double[] low, double[] high) {

        /** Somewhere in a cube of 400 mm, its sides between a hundredth and some 300 mm long. */
        static Box random(SplittableRandom random) {
            double[] low = new double[3];
            double[] high = new double[3];
            for (int k = 0; k < 3; k++) {
                low[k] = random.nextDouble(-200, 200);
                high[k] = low[k] + Math.pow(10, random.nextDouble(-2, 2.5));
            }
            return new Box(low, high);
        }

        boolean meets(Box other) {
            for (int k = 0; k < 3; k++) {
                if (low[k] > other.high[k] || high[k] < other.low[k]) {
                    return false;
                }
            }
            return true;
        }
    }

    @Test
    void everyBoxThatMeetsIsFound() {
        SplittableRandom random = new SplittableRandom(17);
        BoxGrids grids = new BoxGrids();
        List<Box> boxes = new ArrayList<>();
        for (int i = 0; i < 300; i++) {
            boxes.add(Box.random(random));
            grids.add(i, boxes.get(i).low, boxes.get(i).high);
        }
        for (int asked = 0; asked < 200; asked++) {
            Box box = Box.random(random);
            TreeSet<Integer> expected = new TreeSet<>();
            TreeSet<Integer> found = new TreeSet<>();
            for (int i = 0; i < boxes.size(); i++) {
                if (boxes.get(i).meets(box)) {
                    expected.add(i);
                }
            }
            assertFalse(grids.anyNear(box.low, box.high, i -> {
                if (boxes.get(i).meets(box)) {
                    found.add(i);
                }
                return false;
            }));
            assertEquals(expected, found);
            assertEquals(!expected.isEmpty(), grids.anyNear(box.low, box.high, i -> boxes.get(i).meets(box)));
        }
    }

    /** A plain box of a part has triangles as long as itself: in cells of a millimetre one would be in millions. */
    @Test
    void longBoxesAreInFewCells() {
        BoxGrids grids = new BoxGrids();
        grids.add(-1, new double[] {0, 0, 0}, new double[] {0.5, 0.5, 0.5});
        assertTimeoutPreemptively(Duration.ofSeconds(20), () -> {
            for (int i = 0; i < 5000; i++) {
                double[] low = {i, 0, 0};
                double[] high = {i + 900, 900, 900};
                grids.add(i, low, high);
                int wanted = i;
                assertTrue(grids.anyNear(low, high, n -> n == wanted));
            }
            assertTrue(grids.anyNear(new double[] {-500, -500, -500}, new double[] {500, 500, 500}, n -> n == -1));
        });
    }
}
