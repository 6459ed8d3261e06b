package layupmold.geometry.plate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import layupmold.geometry.RigidTransform;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.MeshLimits;
import layupmold.geometry.mesh.io.MeshReader;
import layupmold.geometry.mesh.io.ThreeMfWriter;
import layupmold.geometry.shapes.Shapes;
import org.joml.Matrix4d;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Polygon;

/** Packed plates held against the distances that JTS measures between the bare footprints. */
class PlatePackingTest {

    private static final GeometryFactory FACTORY = new GeometryFactory();

    private static Polygon rectangle(double x, double y, double width, double depth) {
        return (Polygon) FACTORY.toGeometry(new Envelope(x, x + width, y, y + depth));
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6})
    void footprintsKeepTheClearanceAndTheBed(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        List<Polygon> footprints = new ArrayList<>();
        for (int i = 0; i < 12; i++) {
            footprints.add(blob(random));
        }
        double clearance = random.nextDouble(0, 9);
        List<PlatePacking.Placed> placed = PlatePacking.pack(footprints, 250, 210, clearance);
        assertTrue(placed.size() >= 3, "placed " + placed.size());
        List<Geometry> standing = placed.stream().map(p -> p.toBed().transform(footprints.get(p.item()))).toList();
        Geometry bed = rectangle(0, 0, 250, 210);
        for (int i = 0; i < standing.size(); i++) {
            assertTrue(bed.covers(standing.get(i)));
            for (int k = 0; k < i; k++) {
                assertTrue(standing.get(i).distance(standing.get(k)) >= clearance - 1e-9, "clearance");
            }
        }
    }

    /** A star of random radii: often concave. */
    private static Polygon blob(SplittableRandom random) {
        int n = random.nextInt(5, 20);
        double size = random.nextDouble(12, 45);
        Coordinate[] ring = new Coordinate[n + 1];
        for (int i = 0; i < n; i++) {
            double r = size * random.nextDouble(0.4, 1);
            ring[i] = new Coordinate(7 + r * Math.cos(2 * Math.PI * i / n), -30 + r * Math.sin(2 * Math.PI * i / n));
        }
        ring[n] = ring[0].copy();
        return FACTORY.createPolygon(ring);
    }

    /** Four squares of 100 with 10 between fit a bed of 230 exactly: 10/2 + 100 + 10 + 100 + 10/2, on a lattice of 1.8. */
    @Test
    void fourSquaresFillABed() {
        List<Polygon> squares = List.of(rectangle(0, 0, 100, 100), rectangle(-50, -50, 100, 100), rectangle(3, 4, 100, 100),
                rectangle(0, 0, 100, 100), rectangle(0, 0, 100, 100));
        assertEquals(4, PlatePacking.pack(squares, 230, 230, 10).size());
    }

    @Test
    void aLongPieceIsTurnedAndATooLongOneIsLeftOut() {
        List<PlatePacking.Placed> placed = PlatePacking.pack(
                List.of(rectangle(0, 0, 300, 20), rectangle(0, 0, 180, 30), rectangle(0, 0, 40, 40)), 100, 200, 4);
        assertEquals(List.of(1, 2), placed.stream().map(PlatePacking.Placed::item).toList());
        assertEquals(1, placed.get(0).quarterTurns() % 2);
    }

    /** A sphere's silhouette is its great circle: area πr² (Archimedes), here of a mesh that lies inside it. */
    @Test
    void theSilhouetteOfASphereIsItsGreatCircle() {
        Polygon outline = Silhouette.of(Shapes.sphere(30, 48));
        assertEquals(Math.PI * 900, outline.getArea(), 0.005 * Math.PI * 900);
        assertEquals(30, outline.getEnvelopeInternal().getMaxX(), 1e-9);
    }

    @Test
    void aPlateReadsBackWithItsItemsInPlace() throws IOException {
        TriangleMesh ball = Shapes.sphere(10, 8);
        RigidTransform left = new RigidTransform(new Matrix4d().translate(20, 30, 10));
        RigidTransform right = new RigidTransform(new Matrix4d().translate(60, 40, 10).rotateZ(Math.PI / 2));
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ThreeMfWriter.write(List.of(new ThreeMfWriter.Item(ball, null, "a \"b\" <c>", left),
                new ThreeMfWriter.Item(ball, null, null, right)), Map.of("Title", "plate"), out);
        TriangleMesh read = MeshReader.read(out.toByteArray(), null, MeshLimits.defaults()).mesh();
        assertEquals(2 * ball.triangleCount(), read.triangleCount());
        for (int t = 0; t < ball.triangleCount(); t++) {
            assertTrue(read.centroid(t).distance(left.apply(ball.centroid(t))) < 1e-5);
            assertTrue(read.centroid(ball.triangleCount() + t).distance(right.apply(ball.centroid(t))) < 1e-5);
        }
    }
}
