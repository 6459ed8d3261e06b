package layupmold.geometry.flange;

import java.util.Arrays;
import java.util.Optional;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.mesh.LabelledMeshBuilder;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.FlangeSpec;
import org.joml.Vector3d;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;

/**
 * Continues the face past its perimeter by a narrow skirt that carries the trim line's mark.
 *
 * <p>The skirt follows the face's own slope where the part then still releases, so that the offset of the perimeter is
 * the offset of a place inside a surface: the trim line stays where the part ends. Its section is a groove along the
 * perimeter whose far side never leans in by more than the draft; on a steep edge that leaves a step outward, which
 * marks the laminate as well and locks nothing. On a plug the mark is the mirror image, a ridge.
 *
 * <p>Narrowed where the perimeter is hollow and where the skirt would cut the face. O(n log n).
 */
final class PerimeterSkirt {

    private static final int NARROWINGS = 60;
    private static final double NARROWING = 0.8;
    /** Outer edges keep at least this share of the inner edge's length. */
    private static final double LEAST_OUTER_EDGE = 0.3;
    private static final int CUTTING_ROUNDS = 24;
    /** Of the width, and depth, that was asked for. */
    private static final double FAINT = 0.5;
    private static final double LEAST_FAINT_MM = 3;
    private static final int PAIR_LIMIT = 10_000;

    private final TriangleMesh face;
    private final byte[] regions;
    private final int[] perimeter;
    private final PerimeterSlope.Edges edges;
    private final PerimeterSlope[] slopes;
    private final double up;
    private final SkirtSection section;
    private final double[] shares;

    /**
     * @param mesh the face's vertices and triangles first
     * @param regions region of each triangle
     * @param unmarked x, y, z that the vertices after the face's would have on a plain strip in place of the mark
     * @param ring vertices of its boundary, in the perimeter's order
     */
    record Result(TriangleMesh mesh, byte[] regions, double[] unmarked, int[] ring) {
    }

    private PerimeterSkirt(TriangleMesh face, byte[] regions, int[] perimeter, double up, SkirtSection section) {
        this.face = face;
        this.regions = regions;
        this.perimeter = perimeter;
        this.up = up;
        this.section = section;
        this.edges = PerimeterSlope.Edges.of(face, perimeter);
        this.slopes = new PerimeterSlope[perimeter.length];
        this.shares = new double[perimeter.length];
        Arrays.fill(shares, 1);
        Arrays.setAll(slopes, this::slope);
    }

    /** Averaged over as much of the perimeter as the skirt is wide there. */
    private PerimeterSlope slope(int i) {
        return edges.slope(i, up, shares[i] * section.widthMm(), section.steepestRad());
    }

    /**
     * @param face facing out of the mold, pull along z
     * @param perimeter vertices of its boundary, the face on the left
     * @param up 1 if the flange's wall climbs with z, -1 if against it
     * @param offsetMm signed offset along the part's outward normal that will follow
     * @param plainMm width beyond the mark
     */
    static PerimeterSkirt around(TriangleMesh face, byte[] regions, int[] perimeter, double up, FlangeSpec spec,
            double offsetMm, double plainMm) {
        return new PerimeterSkirt(face, regions, perimeter, up, SkirtSection.of(spec, offsetMm, plainMm));
    }

    /** @throws Rejection if no skirt, however narrow, clears the face */
    Result grow() {
        Vector3d crossing = face.vertex(perimeter[0]);
        for (int round = 0; round < CUTTING_ROUNDS; round++) {
            narrowHollows();
            Result result = build();
            int[] pairs = SelfIntersections.findInvolving(
                    result.mesh, face.triangleCount(), PAIR_LIMIT);
            if (pairs.length > 0) {
                crossing = result.mesh.centroid(pairs[1]);
                narrowCutting(result.mesh, pairs);
                continue;
            }
            Geometry faults = PerimeterPlan.faults(result.mesh.xyz(), result.ring);
            if (faults.isEmpty()) {
                return result;
            }
            narrowNear(faults, result);
        }
        throw new Rejection(Finding.error("flange", "flange-crosses-itself",
                "No flange can leave the part's perimeter here without cutting through the face.")
                .at(Place.at(crossing))
                .advising("Choose another pull direction, or smooth the part's edge."));
    }

    private Vector3d at(int i, int ring) {
        return section.at(slopes[i], shares[i], ring).add(face.vertex(perimeter[i]));
    }

    private void narrowHollows() {
        int n = perimeter.length;
        int last = section.rings() - 1;
        boolean changed = true;
        for (int round = 0; round < NARROWINGS && changed; round++) {
            changed = false;
            for (int i = 0; i < n; i++) {
                int k = (i + 1) % n;
                Vector3d inner = face.vertex(perimeter[k]).sub(face.vertex(perimeter[i]));
                if (at(k, last).sub(at(i, last)).dot(inner) < LEAST_OUTER_EDGE * inner.lengthSquared()) {
                    shares[i] *= NARROWING;
                    shares[k] *= NARROWING;
                    changed = true;
                }
            }
        }
    }

    /** Narrows the skirt at the vertices of what crosses something. */
    private void narrowCutting(TriangleMesh mesh, int[] pairs) {
        narrow(Arrays.stream(pairs).flatMap(t -> Arrays.stream(mesh.triangles(), 3 * t, 3 * t + 3)).toArray());
    }

    /** Narrows the skirt at some of its vertices, passing over any of the face; false if there are no others. */
    boolean narrow(int[] vertices) {
        int n = perimeter.length;
        boolean[] cuts = new boolean[n];
        for (int v : vertices) {
            if (v >= face.vertexCount()) {
                cuts[(v - face.vertexCount()) % n] = true;
            }
        }
        boolean any = false;
        for (int i = 0; i < n; i++) {
            if (cuts[i]) {
                shares[i] *= NARROWING * NARROWING;
                slopes[i] = slope(i);
                any = true;
            }
        }
        return any;
    }

    /** Says where the mark is less than half as deep as asked, if for longer than around a corner; O(n). */
    Optional<Finding> faint() {
        int n = perimeter.length;
        double aroundMm = edges.lengthMm();
        double longestMm = 0;
        double lengthMm = 0;
        int where = 0;
        // Twice around: the longest stretch may run over the perimeter's start.
        for (int i = 0; i < 2 * n && lengthMm < aroundMm; i++) {
            lengthMm = shares[i % n] < FAINT ? lengthMm + edges.lengths()[i % n] : 0;
            if (lengthMm > longestMm) {
                longestMm = lengthMm;
                where = i % n;
            }
        }
        if (longestMm < LEAST_FAINT_MM || section.mark().depthMm() == 0) {
            return Optional.empty();
        }
        return Optional.of(Finding.warning("flange", "trim-mark-faint",
                "Along some of the perimeter the trim mark has room for less than half its depth.")
                .measured(longestMm, LEAST_FAINT_MM, "mm").at(Place.at(face.vertex(perimeter[where])))
                .advising("Mark this edge on the laminate by hand."));
    }

    /** Narrows the skirt where its end, seen along the pull, crosses itself. */
    private void narrowNear(Geometry faults, Result result) {
        double[] xyz = result.mesh.xyz();
        for (int i = 0; i < perimeter.length; i++) {
            Coordinate end = new Coordinate(xyz[3 * result.ring[i]], xyz[3 * result.ring[i] + 1]);
            if (faults.isWithinDistance(PlanRegion.PLANE.createPoint(end), PerimeterPlan.MOST_JITTER_MM)) {
                shares[i] *= NARROWING * NARROWING;
            }
        }
    }

    private Result build() {
        int n = perimeter.length;
        LabelledMeshBuilder sheet = new LabelledMeshBuilder(face, regions);
        int[] inner = perimeter;
        byte wall = (byte) MoldRegion.WALL.ordinal();
        for (int ring = 0; ring < section.rings(); ring++) {
            int[] outer = new int[n];
            for (int i = 0; i < n; i++) {
                Vector3d p = at(i, ring);
                outer[i] = sheet.addVertex(p.x, p.y, p.z);
            }
            for (int i = 0; i < n; i++) {
                int k = (i + 1) % n;
                sheet.addTriangle(inner[k], inner[i], outer[i], wall);
                sheet.addTriangle(inner[k], outer[i], outer[k], wall);
            }
            inner = outer;
        }
        TriangleMesh mesh = sheet.mesh();
        return new Result(mesh, sheet.labels(), unmarked(mesh.xyz()), inner);
    }

    private double[] unmarked(double[] xyz) {
        int n = perimeter.length;
        int last = section.rings() - 1;
        double[] plain = new double[3 * n * last];
        for (int i = 0; i < plain.length; i++) {
            int column = i / 3 % n;
            double inner = xyz[3 * perimeter[column] + i % 3];
            double outer = xyz[3 * (face.vertexCount() + last * n + column) + i % 3];
            plain[i] = inner + section.unmarkedShare(i / (3 * n)) * (outer - inner);
        }
        return plain;
    }
}
