package layupmold.geometry.face;

import com.carrotsearch.hppc.IntArrayList;
import com.carrotsearch.hppc.IntHashSet;
import java.util.Arrays;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.SymmetricEigen;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Matrix3d;
import org.joml.Vector3d;

/**
 * Walls of openings that run straight in: screw holes through bosses, collars turned inward. A bore's wall has the front
 * on its one side and the boss's wall behind it, as the outer wall has; but no mold of the front leaves it, so it belongs
 * to the opening as a rim strip does, however deep.
 *
 * <p>A bore is a smooth segment that an opening cuts off, hollow, facing all ways around one axis and nowhere along it.
 */
final class Bores {

    /** Of a bore's normals, the mean square along its axis: less than that of a draft of two degrees. */
    private static final double STRAIGHT = Math.pow(Math.sin(Math.toRadians(2)), 2);
    private static final int BINS = 36;
    /** A triangular hole's normals part by 120 degrees; a gutter's by 180. */
    private static final int MOST_EMPTY = BINS * 13 / 36;
    /** Bores deeper than this many wall thicknesses are no mere rim. */
    private static final double DEEP = 2.5;

    private final TriangleMesh mesh;
    private final EdgeTopology topology;
    private final EdgeAngles edges;
    private final Segments segments;

    private Bores(TriangleMesh mesh, EdgeTopology topology, EdgeAngles edges, Segments segments) {
        this.mesh = mesh;
        this.topology = topology;
        this.edges = edges;
        this.segments = segments;
    }

    /**
     * Takes bores out of {@code kept}; O(n α(n)).
     *
     * @param typicalMm wall thickness
     * @return a warning where one is deep
     */
    static Optional<Finding> leaveOut(TriangleMesh mesh, EdgeTopology topology, EdgeAngles edges, Segments segments,
            boolean[] kept, double typicalMm) {
        return new Bores(mesh, topology, edges, segments).leaveOut(kept, typicalMm);
    }

    private Optional<Finding> leaveOut(boolean[] kept, double typicalMm) {
        int deepest = -1;
        for (IntArrayList segment : atOpenings(kept).values()) {
            int[] triangles = segment.toArray();
            if (isBore(triangles)) {
                Arrays.stream(triangles).forEach(t -> kept[t] = false);
                int t = triangles[0];
                deepest = deepest < 0 || segments.widthMm()[t] > segments.widthMm()[deepest] ? t : deepest;
            }
        }
        return deepest < 0 || segments.widthMm()[deepest] < DEEP * typicalMm ? Optional.empty()
                : Optional.of(FaceFindings.boreLeftOut(mesh, deepest, segments.widthMm()[deepest]));
    }

    /** The triangles of each segment that an opening's end runs along, but not the perimeter. */
    private Map<Integer, IntArrayList> atOpenings(boolean[] kept) {
        BoundaryPieces pieces = BoundaryPieces.of(mesh, topology, kept);
        IntHashSet atOpening = new IntHashSet();
        IntHashSet atPerimeter = new IntHashSet();
        for (int h = 0; h < topology.halfEdgeCount(); h++) {
            int g = topology.twin(h);
            if (g >= 0 && kept[h / 3] && !kept[g / 3]) {
                (pieces.isPerimeter(topology.from(h)) ? atPerimeter : atOpening).add(segments.ofTriangle()[h / 3]);
            }
        }
        Map<Integer, IntArrayList> found = new TreeMap<>();
        for (int t = 0; t < kept.length; t++) {
            int segment = segments.ofTriangle()[t];
            if (atOpening.contains(segment) && !atPerimeter.contains(segment)) {
                found.computeIfAbsent(segment, s -> new IntArrayList()).add(t);
            }
        }
        return found;
    }

    private boolean isBore(int[] triangles) {
        double[][] square = new double[3][3];
        Vector3d middle = new Vector3d();
        double area = 0;
        for (int t : triangles) {
            double a = edges.areas()[t];
            area += a;
            middle.fma(a, mesh.centroid(t));
            double[] n = edges.normals();
            SymmetricEigen.addSquare(square, new Vector3d(n[3 * t], n[3 * t + 1], n[3 * t + 2]), a);
        }
        middle.div(area);
        Matrix3d axes = SymmetricEigen.vectors(square);
        int along = 0;
        for (int k = 1; k < 3; k++) {
            along = square[k][k] < square[along][along] ? k : along;
        }
        return square[along][along] < STRAIGHT * area
                && isHollow(triangles, middle)
                && facesAllAround(triangles, axes, (along + 1) % 3, (along + 2) % 3);
    }

    private boolean isHollow(int[] triangles, Vector3d middle) {
        double outward = 0;
        for (int t : triangles) {
            Vector3d away = mesh.centroid(t).sub(middle);
            outward += edges.areas()[t] * edges.along(t, away.x, away.y, away.z);
        }
        return outward < 0;
    }

    private boolean facesAllAround(int[] triangles, Matrix3d axes, int first, int second) {
        Vector3d u = axes.getColumn(first, new Vector3d());
        Vector3d v = axes.getColumn(second, new Vector3d());
        boolean[] faced = new boolean[BINS];
        for (int t : triangles) {
            double angle = Math.atan2(edges.along(t, v.x, v.y, v.z), edges.along(t, u.x, u.y, u.z));
            faced[Math.floorMod((int) Math.floor(angle / (2 * Math.PI) * BINS), BINS)] |= edges.areas()[t] > 0;
        }
        int empty = 0;
        for (int i = 0; i < 2 * BINS && empty <= MOST_EMPTY; i++) {
            empty = faced[i % BINS] ? 0 : empty + 1;
        }
        return empty <= MOST_EMPTY;
    }
}
