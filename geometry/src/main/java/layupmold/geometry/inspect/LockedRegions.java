package layupmold.geometry.inspect;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import layupmold.geometry.finding.Place;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.parallel.Parallel;
import org.joml.Vector3d;

/**
 * Joins undercut triangles that touch and measures how deep each piece is locked.
 *
 * <p>Depth is first read off the sky map at up to {@value #CANDIDATES} corners and centres of a piece, then made exact
 * for the deepest of them: along the direction found, and a few beside it, the least move that brings the point under
 * open sky is bisected with rays.
 */
final class LockedRegions {

    private static final int CANDIDATES = 1500;
    private static final int REFINED = 48;
    private static final int REFINED_SMALL = 4;
    private static final int ROUNDS = 3;
    private static final int BISECTIONS = 20;
    /** Shallower pieces are noise of tessellation. */
    static final double LEAST_DEPTH_MM = 0.01;

    /** Index into {@link #regions} of each triangle, or -1. */
    final int[] regionOf;
    final List<LockedRegion> regions = new ArrayList<>();

    private final Undercut undercut;
    private final SkyMap sky;
    private final TriangleMesh mesh;

    LockedRegions(Undercut undercut) {
        this.undercut = undercut;
        this.mesh = undercut.solid.mesh();
        this.regionOf = new int[mesh.triangleCount()];
        Arrays.fill(regionOf, -1);
        if (!undercut.any()) {
            this.sky = null;
            return;
        }
        this.sky = new SkyMap(undercut.solid);
        double[] areas = undercutAreas();
        TrianglePieces found = TrianglePieces.of(mesh, t -> areas[t] > 0);
        List<int[]> pieces = found.pieces();
        double total = Arrays.stream(areas).sum();
        LockedRegion[] measured = new LockedRegion[pieces.size()];
        Parallel.forRanges(pieces.size(), 1, (chunk, from, to) -> measured[from] = measure(pieces.get(from), areas, total));
        number(measured, found.pieceOf());
    }

    private double[] undercutAreas() {
        double[] areas = new double[mesh.triangleCount()];
        SurfaceSamples samples = undercut.samples;
        for (int s = 0; s < samples.count(); s++) {
            areas[samples.triangle[s]] += undercut.state[s] != 0 ? samples.weight[s] : 0;
        }
        return areas;
    }

    private record Candidate(Vector3d at, double depth, double towardsX, double towardsY) {
    }

    private LockedRegion measure(int[] triangles, double[] areas, double total) {
        double area = 0;
        for (int t : triangles) {
            area += areas[t];
        }
        List<Candidate> candidates = new ArrayList<>();
        int stride = Math.max(1, 4 * triangles.length / CANDIDATES);
        for (int i = 0; i < triangles.length; i += stride) {
            int t = triangles[i];
            candidates.add(candidate(mesh.centroid(t), t));
            for (int corner = 0; corner < 3; corner++) {
                candidates.add(candidate(mesh.corner(t, corner), t));
            }
        }
        candidates.sort(Comparator.comparingDouble(Candidate::depth).reversed());
        Candidate deepest = null;
        int refined = area > 0.01 * total ? REFINED : REFINED_SMALL;
        for (Candidate c : candidates.subList(0, Math.min(refined, candidates.size()))) {
            Candidate exact = refine(c);
            deepest = deepest == null || exact.depth > deepest.depth ? exact : deepest;
        }
        return new LockedRegion(Place.at(deepest.at), area, deepest.depth);
    }

    private Candidate candidate(Vector3d at, int triangle) {
        double[] n = undercut.solid.normals();
        Vector3d lifted = new Vector3d(at).add(new Vector3d(n[3 * triangle], n[3 * triangle + 1], n[3 * triangle + 2])
                .mul(Undercut.CLEARANCE_MM));
        double[] found = new double[2];
        double depth = sky.nearest(lifted.x, lifted.y, lifted.z, found);
        return new Candidate(lifted, depth, found[0], found[1]);
    }

    private Candidate refine(Candidate c) {
        if (undercut.isFree(c.at.x, c.at.y, c.at.z)) {
            return new Candidate(c.at, 0, 0, 0);
        }
        if (Double.isInfinite(c.depth)) {
            return c;
        }
        double towards = Math.atan2(c.towardsY - c.at.y, c.towardsX - c.at.x);
        double least = c.depth;
        // The nearest cell may lie aside of the nearest point by this much.
        double width = Math.min(Math.PI / 2, 1.5 * Math.sqrt(2 * sky.cellMm() / Math.max(c.depth, sky.cellMm())));
        for (int round = 0; round < ROUNDS; round++, width /= 4) {
            double centre = towards;
            for (int i = -4; i <= 4; i++) {
                double angle = centre + i * width / 4;
                double depth = bisect(c.at, Math.cos(angle), Math.sin(angle), c.depth + 2 * sky.cellMm());
                if (depth < least) {
                    least = depth;
                    towards = angle;
                }
            }
        }
        return new Candidate(c.at, least, c.towardsX, c.towardsY);
    }

    private double bisect(Vector3d at, double dx, double dy, double far) {
        if (!undercut.isFree(at.x + far * dx, at.y + far * dy, at.z)) {
            return Double.POSITIVE_INFINITY;
        }
        double low = 0;
        double high = far;
        for (int i = 0; i < BISECTIONS; i++) {
            double mid = (low + high) / 2;
            if (undercut.isFree(at.x + mid * dx, at.y + mid * dy, at.z)) {
                high = mid;
            } else {
                low = mid;
            }
        }
        return high;
    }

    private void number(LockedRegion[] measured, int[] pieceOf) {
        Integer[] order = new Integer[measured.length];
        Arrays.setAll(order, i -> i);
        Arrays.sort(order, Comparator.comparingDouble((Integer i) -> -measured[i].depthMm()));
        int[] number = new int[measured.length];
        Arrays.fill(number, -1);
        for (int i : order) {
            if (measured[i].depthMm() >= LEAST_DEPTH_MM && measured[i].areaMm2() >= PrintedDetail.LEAST_AREA_MM2) {
                number[i] = regions.size();
                regions.add(measured[i]);
            }
        }
        for (int t = 0; t < pieceOf.length; t++) {
            regionOf[t] = pieceOf[t] < 0 ? -1 : number[pieceOf[t]];
        }
    }
}
