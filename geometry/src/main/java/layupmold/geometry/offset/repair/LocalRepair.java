package layupmold.geometry.offset.repair;

import java.util.Arrays;
import java.util.List;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.finding.Rejection;
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
     * @param perimeter its boundary, the surface on the left
     * @param cellMm grid size used
     * @param cells number of cells contoured
     * @param place middle of the first bad triangle, as moved
     */
    public record Result(
            TriangleMesh mesh, int[] sourceTriangle, int[] perimeter, double cellMm, int cells, Place place) {
    }

    private final SkirtedSheet sheet;
    private final OffsetField field;
    private final double[] moved;
    private final TriangleMesh movedMesh;
    private final EdgeTopology topology;
    private final BadTriangles bad;

    private LocalRepair(SkirtedSheet sheet, OffsetField field, double[] moved, BadTriangles bad) {
        this.sheet = sheet;
        this.field = field;
        this.moved = moved;
        this.movedMesh = new TriangleMesh(moved, sheet.mesh().triangles());
        this.topology = EdgeTopology.of(sheet.mesh());
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
     * @param toleranceMm how far a moved vertex may be off before its surroundings are contoured
     * @param move moves vertices to their triangles' offset planes
     * @return null if the moved surface is sound as it is
     * @throws Rejection if the offset surface cannot be built
     */
    public static Result repair(TriangleMesh face, int[] perimeter, double offset, double mitreLimit,
            double toleranceMm, VertexMove move) {
        double cell = Math.max(FINEST_MM, Math.min(COARSEST_MM, SIZE_PER_OFFSET * offset));
        SkirtedSheet sheet = SkirtedSheet.of(face, EdgeTopology.of(face), perimeter, offset + 4 * cell);
        OffsetField field = new OffsetField(sheet.mesh(), offset, mitreLimit);
        double[] moved = move.move(sheet.mesh(), offset);
        BadTriangles bad = BadTriangles.find(sheet, moved, field, toleranceMm);
        return bad.isEmpty() ? null : new LocalRepair(sheet, field, moved, bad).run(cell);
    }

    private Result run(double finest) {
        CellGrid grid = new CellGrid(movedMesh, finest);
        RepairRegion region = new RepairRegion(grid);
        while (!bad.cover(region, REACH, CELL_BUDGET)) {
            grid = new CellGrid(movedMesh, grid.size * COARSENING);
            region = new RepairRegion(grid);
        }
        for (int attempt = 0; attempt < ATTEMPTS; attempt++) {
            int before = region.size();
            Result result = contour(grid, region);
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
    private Result contour(CellGrid grid, RepairRegion region) {
        PatchMesh patch = new PatchMesh(moved, sheet.sides());
        MeshClipper clipper = new MeshClipper(movedMesh, topology, sheet.faceTriangles(), grid, region, patch);
        clipper.clip();
        long[] cells = region.sortedCells();
        CornerValues corners = new CornerValues(grid, cells, field);
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
        SurfacePoints points = new SurfacePoints(field, sheet.faceTriangles(), patch);
        try {
            new CellContour(grid, region, corners, clipper, points, patch).span(cells);
        } catch (ContourException e) {
            for (int k = 0; k < 8; k++) {
                growAroundCorner(region, CornerValues.corner(e.cell(), k));
            }
            return null;
        }
        new SeamTrim(patch, sheet.faceTriangles(), points).trim();
        return assemble(patch, grid.size, cells.length);
    }

    static void growAroundCorner(RepairRegion region, long corner) {
        for (int k = 0; k < 8; k++) {
            region.add(corner - (k & 1) * CellGrid.STEP[0] - (k >> 1 & 1) * CellGrid.STEP[1]
                    - (k >> 2 & 1) * CellGrid.STEP[2]);
        }
    }

    private Result assemble(PatchMesh patch, double cellMm, int cells) {
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
            sources[i] = sources[i] < sheet.faceTriangles() ? sources[i] : -1;
        }
        TriangleMesh mesh = new TriangleMesh(xyz, triangles);
        return new Result(mesh, sources, perimeter(mesh), cellMm, cells, place());
    }

    private int[] perimeter(TriangleMesh mesh) {
        EdgeTopology edges = EdgeTopology.of(mesh);
        List<int[]> loops = edges.boundaryLoops();
        if (loops.size() != 1 || edges.nonManifoldCount() > 0) {
            throw failure("offset-not-closed", "The offset surface falls apart at this place ("
                    + loops.size() + " edges, " + edges.nonManifoldCount() + " non-manifold).");
        }
        return Arrays.stream(loops.get(0)).map(edges::from).toArray();
    }

    private Place place() {
        int[] corners = sheet.mesh().triangles();
        double[] p = new double[3];
        for (int k = 0; k < 3; k++) {
            for (int i = 0; i < 3; i++) {
                p[k] += moved[3 * corners[3 * bad.first() + i] + k] / 3;
            }
        }
        return Place.at(p[0], p[1], p[2]);
    }

    private Rejection failure(String code, String message) {
        return new Rejection(Finding.error(STAGE, code, message).at(place())
                .advising("Thinner plies need a smaller offset; else smooth the part where it is tighter than that."));
    }
}
