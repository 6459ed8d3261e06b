package layupmold.geometry.offset.repair;

import java.util.Arrays;
import java.util.stream.IntStream;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Replaces the places where a moved surface folds, crosses itself or misses its distance by the true offset surface,
 * contoured from a distance field in a sparse grid around those places, and keeps the moved triangles everywhere else.
 *
 * <p>Moved mesh and contour meet exactly on the faces of grid cells. Where the two disagree about a cell, the contoured
 * region grows and the work starts over. Cost: the moved mesh once, and O(log n) for each grid corner of the region.
 */
public final class LocalRepair {

    private static final String STAGE = "offset";
    /** Cells between a bad triangle and the edge of the contoured region. */
    private static final int REACH = 2;
    private static final int ATTEMPTS = 12;
    private static final double COARSEST_MM = 0.5;
    private static final double FINEST_MM = 0.12;
    /** Grid size over offset where nothing else decides. */
    private static final double SIZE_PER_OFFSET = 0.5;
    private static final double COARSENING = 1.4;
    private static final int CELL_BUDGET = 1_500_000;

    /**
     * @param mesh the repaired surface, without unused vertices
     * @param sourceTriangle for each triangle the face triangle whose offset it is
     * @param moved whether a vertex is one of the face's, moved
     * @param cellMm grid size used, or 0 where the moved surface was sound as it is
     * @param place middle of the first bad triangle, as moved; null if there is none
     * @param field what the surface is held against
     */
    public record Result(TriangleMesh mesh, int[] sourceTriangle, boolean[] moved, double cellMm, Place place,
            OffsetField field) {
    }

    private final OffsetField field;
    private final MovedSheet moved;
    private final EdgeTopology topology;
    private final BadTriangles bad;

    private LocalRepair(OffsetField field, MovedSheet moved, BadTriangles bad) {
        this.field = field;
        this.moved = moved;
        this.topology = EdgeTopology.of(moved.mesh());
        this.bad = bad;
    }

    /** Moves vertices by {@code offset} mm along the triangles' fronts; the offset stage's fast path. */
    @FunctionalInterface
    public interface VertexMove {
        double[] move(TriangleMesh mesh, double offset);
    }

    /**
     * @param face capped face facing the side it is moved to
     * @param perimeter its boundary's vertices, the face on the left
     * @param offset mm, positive
     * @param mitreLimit how far a mitre may reach, in offsets
     * @param toleranceMm how far the moved surface may be off before its surroundings are contoured
     * @param move moves vertices to their triangles' offset planes
     * @param lattice coordinates that the moved vertices may have
     * @throws Rejection if the offset surface cannot be built
     */
    public static Result repair(TriangleMesh face, int[] perimeter, double offset, double mitreLimit,
            double toleranceMm, VertexMove move, CoordinateLattice lattice) {
        double cell = Math.max(FINEST_MM, Math.min(COARSEST_MM, SIZE_PER_OFFSET * offset));
        SkirtedSheet sheet = SkirtedSheet.of(face, EdgeTopology.of(face), perimeter, offset + 4 * cell);
        OffsetField field = new OffsetField(sheet.mesh(), offset, mitreLimit);
        double[] places = move.move(sheet.mesh(), offset);
        // The skirt must not pull at the face: its vertices move as they do without.
        System.arraycopy(move.move(face, offset), 0, places, 0, face.xyz().length);
        MovedSheet moved = MovedSheet.of(sheet, places, field, lattice);
        BadTriangles bad = BadTriangles.find(moved, field, toleranceMm);
        if (bad.isEmpty()) {
            boolean[] all = new boolean[face.vertexCount()];
            Arrays.fill(all, true);
            return new Result(
                    new TriangleMesh(Arrays.copyOf(moved.mesh().xyz(), face.xyz().length), face.triangles()),
                    IntStream.range(0, face.triangleCount()).toArray(), all, 0, null, field);
        }
        return new LocalRepair(field, moved, bad).run(cell);
    }

    private Result run(double finest) {
        CellGrid grid = new CellGrid(moved.mesh(), finest);
        RepairRegion region = new RepairRegion(grid);
        while (!bad.cover(region, REACH, CELL_BUDGET)) {
            grid = new CellGrid(moved.mesh(), grid.size * COARSENING);
            region = new RepairRegion(grid);
        }
        FieldAtCorners known = new FieldAtCorners(grid, field);
        for (int attempt = 0; attempt < ATTEMPTS; attempt++) {
            int before = region.size();
            Result result = contour(grid, region, known);
            if (result != null) {
                return result;
            }
            if (region.size() == before) {
                break;
            }
        }
        throw failure("offset-not-closed", "The offset surface could not be closed at this place.");
    }

    /** One attempt; null if the region had to grow. */
    private Result contour(CellGrid grid, RepairRegion region, FieldAtCorners known) {
        PatchMesh patch = new PatchMesh(moved.mesh().xyz(), moved.sides());
        MeshClipper clipper = new MeshClipper(moved, topology, grid, region, patch);
        clipper.clip();
        long[] cells = region.sortedCells();
        CornerValues corners = new CornerValues(cells, known);
        if (!RegionBorder.bind(cells, region, clipper, corners)) {
            return null;
        }
        long[] troubled = corners.settle(Math.max(0.02, 0.1 * grid.size));
        for (long corner : troubled) {
            growAroundCorner(region, corner);
        }
        if (troubled.length > 0) {
            return null;
        }
        SurfacePoints points = new SurfacePoints(field, moved.faceTriangles(), patch);
        try {
            new CellContour(grid, region, corners, clipper, points, patch).span(cells);
        } catch (ContourException e) {
            for (int k = 0; k < 8; k++) {
                growAroundCorner(region, CornerValues.corner(e.cell(), k));
            }
            return null;
        }
        new SeamTrim(patch, moved.faceTriangles(), points).trim();
        return assemble(patch, grid.size);
    }

    static void growAroundCorner(RepairRegion region, long corner) {
        for (int k = 0; k < 8; k++) {
            region.add(corner - (k & 1) * CellGrid.STEP[0] - (k >> 1 & 1) * CellGrid.STEP[1]
                    - (k >> 2 & 1) * CellGrid.STEP[2]);
        }
    }

    private Result assemble(PatchMesh patch, double cellMm) {
        int[] triangles = patch.triangles.toArray();
        int[] index = new int[patch.vertexCount()];
        Arrays.fill(index, -1);
        int used = 0;
        for (int i = 0; i < triangles.length; i++) {
            if (index[triangles[i]] < 0) {
                index[triangles[i]] = used++;
            }
        }
        double[] xyz = new double[3 * used];
        for (int v = 0; v < index.length; v++) {
            for (int k = 0; k < 3 && index[v] >= 0; k++) {
                xyz[3 * index[v] + k] = patch.get(v, k);
            }
        }
        int[] sources = patch.sources.toArray();
        for (int i = 0; i < triangles.length; i++) {
            triangles[i] = index[triangles[i]];
        }
        for (int i = 0; i < sources.length; i++) {
            sources[i] = sources[i] < moved.faceTriangles() ? sources[i] : -1;
        }
        boolean[] fromFace = new boolean[used];
        for (int v = 0; v < moved.mesh().vertexCount(); v++) {
            if (index[v] >= 0) {
                fromFace[index[v]] = true;
            }
        }
        return new Result(new TriangleMesh(xyz, triangles), sources, fromFace, cellMm, place(), field);
    }

    private Place place() {
        return Place.at(moved.mesh().centroid(bad.first()));
    }

    private Rejection failure(String code, String message) {
        return new Rejection(Finding.error(STAGE, code, message).at(place())
                .advising("Thinner plies need a smaller offset; else smooth the part where it is tighter than that."));
    }
}
