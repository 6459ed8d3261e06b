package layupmold.geometry.opening;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.algorithm.CGAlgorithms3D;
import org.locationtech.jts.geom.Coordinate;

class LoopDistanceTest {

    private static final int CORNERS = 2000;

    /** JTS measures to one segment; all of a wavy loop, and points near and far and above its middle. */
    @Test
    void isTheLeastOfTheDistancesToAllSides() {
        Random random = new Random(5);
        double[] xyz = new double[3 * (CORNERS + 300)];
        for (int v = 0; v < xyz.length / 3; v++) {
            double angle = v < CORNERS ? 2 * Math.PI * v / CORNERS : 2 * Math.PI * random.nextDouble();
            double radius = 50 * (1 + 0.3 * Math.cos(5 * angle));
            double share = v < CORNERS ? 1 : v == CORNERS ? 0 : 1.2 * random.nextDouble();
            xyz[3 * v] = share * radius * Math.cos(angle);
            xyz[3 * v + 1] = share * radius * Math.sin(angle);
            xyz[3 * v + 2] = share * 10 * Math.cos(3 * angle);
        }
        LoopDistance distance = new LoopDistance(xyz, CORNERS);
        for (int v = CORNERS; v < xyz.length / 3; v++) {
            double least = Double.POSITIVE_INFINITY;
            for (int a = 0; a < CORNERS; a++) {
                least = Math.min(least, CGAlgorithms3D.distancePointSegment(
                        at(xyz, v), at(xyz, a), at(xyz, (a + 1) % CORNERS)));
            }
            assertEquals(least, distance.at(xyz, v), 1e-9);
            distance.moveTo(xyz, v, 1e-3);
            assertEquals(1e-3, distance.at(xyz, v), 1e-9);
        }
    }

    private static Coordinate at(double[] xyz, int v) {
        return new Coordinate(xyz[3 * v], xyz[3 * v + 1], xyz[3 * v + 2]);
    }
}
