package layupmold.geometry.offset.repair;

import java.util.Arrays;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.Pieces;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Replaces places of a moved surface by the true offset surface, contoured from a distance field in a sparse grid around
 * those places, and keeps the moved triangles everywhere else.
 *
 * <p>Moved mesh and contour meet exactly on the faces of grid cells. Where the two disagree about a cell, the contoured
 * region grows and the work starts over. Cost: the moved mesh once, and O(log n) for each grid corner of the region.
 */
final class Contouring {

    /** Cells between a defect and the edge of the contoured region. */
    private static final int REACH = 1;
    private static final int ATTEMPTS = 40;
    /** The region grows by one cell at first, by one more after this many attempts. */
    private static final int ATTEMPTS_PER_REACH = 3;
    private static final double[] SIZES = {1, 0.8, 1.25, 0.6};
    private static final double COARSENING = 1.4;
    private static final int CELL_BUDGET = 1_500_000;
    /** A region that has grown so far from what it was never closes: the disagreement runs ahead of it. */
    private static final int GROWTH_CELLS = 4_000;
    private static final int GROWTH_FACTOR = 32;
    private static final int MOST_GROWTH_CELLS = 150_000;

    /**
     * @param sheet without unused vertices
     * @param cellMm grid size
     */
    record Result(LabelledSheet sheet, double cellMm) {
    }

    private final LabelledSheet sheet;
    private final TriangleMesh mesh;
    private final EdgeTopology topology;
    private final byte[] fieldLabels;
    private final OffsetField field;

    private Contouring(LabelledSheet sheet, byte[] fieldLabels, OffsetField field) {
        this.sheet = sheet;
        this.mesh = sheet.mesh();
        this.topology = EdgeTopology.of(mesh);
        this.fieldLabels = fieldLabels;
        this.field = field;
    }

    /**
     * Tries grids of the given size and of others near it: what is too entangled on one may not be on the next.
     *
     * @param sheet sound but for the defects
     * @param fieldLabels one for each triangle that the field is of; contoured triangles take the nearest one's
     * @return null if no contour fits the kept mesh
     */
    static Result contour(
            LabelledSheet sheet, byte[] fieldLabels, Defects defects, OffsetField field, double cellMm) {
        Contouring contouring = new Contouring(sheet, fieldLabels, field);
        for (double size : SIZES) {
            Result result = contouring.contour(defects, size * cellMm);
            if (result != null) {
                return result;
            }
        }
        return null;
    }

    private Result contour(Defects defects, double cellMm) {
        CellGrid grid = new CellGrid(mesh, cellMm);
        RepairRegion region = new RepairRegion(grid);
        while (!defects.cover(region, REACH, CELL_BUDGET)) {
            grid = new CellGrid(mesh, grid.size * COARSENING);
            region = new RepairRegion(grid);
        }
        FieldAtCorners known = new FieldAtCorners(grid, field);
        int most = region.size() + Math.min(MOST_GROWTH_CELLS, GROWTH_CELLS + (GROWTH_FACTOR - 1) * region.size());
        for (int attempt = 0; attempt < ATTEMPTS && region.size() <= most; attempt++) {
            int before = region.size();
            Result result = attempt(grid, region, known, 1 + attempt / ATTEMPTS_PER_REACH);
            if (result != null) {
                return result;
            }
            if (region.size() == before) {
                break;
            }
        }
        return null;
    }

    /** One attempt; null if the region had to grow. */
    private Result attempt(CellGrid grid, RepairRegion region, FieldAtCorners known, int reach) {
        PatchMesh patch = new PatchMesh(mesh.xyz());
        MeshClipper clipper = new MeshClipper(mesh, topology, grid, region, patch);
        clipper.clip();
        long[] cells = region.sortedCells();
        CornerValues corners = new CornerValues(cells, known);
        if (!RegionBorder.bind(cells, region, clipper, corners)) {
            return null;
        }
        long[] troubled = corners.settle(Math.max(0.04, 0.2 * grid.size));
        for (long corner : troubled) {
            growAroundCorner(region, corner, reach);
        }
        if (troubled.length > 0) {
            return null;
        }
        SurfacePoints points = new SurfacePoints(field, patch);
        try {
            new CellContour(grid, region, corners, clipper, points, patch).span(cells);
        } catch (ContourException e) {
            for (int k = 0; k < 8; k++) {
                growAroundCorner(region, CornerValues.corner(e.cell(), k), reach);
            }
            return null;
        }
        return assemble(patch, points, grid.size);
    }

    /** Adds the cells within {@code reach} of a grid corner. */
    static void growAroundCorner(RepairRegion region, long corner, int reach) {
        for (int k = -reach; k < reach; k++) {
            for (int j = -reach; j < reach; j++) {
                for (int i = -reach; i < reach; i++) {
                    region.add(corner + i * CellGrid.STEP[0] + j * CellGrid.STEP[1] + k * CellGrid.STEP[2]);
                }
            }
        }
    }

    private Result assemble(PatchMesh patch, SurfacePoints points, double cellMm) {
        // Bubbles that float free of the surface are none of it.
        int[] main = Pieces.largest(new TriangleMesh(patch.coordinates(), patch.triangles.toArray()));
        int[] triangles = new int[3 * main.length];
        int[] left = new int[main.length];
        for (int t = 0; t < main.length; t++) {
            left[t] = patch.sources.get(main[t]);
            for (int k = 0; k < 3; k++) {
                triangles[3 * t + k] = patch.triangles.get(3 * main[t] + k);
            }
        }
        for (int t = 0; t < left.length; t++) {
            left[t] = left[t] >= 0 ? sheet.labels()[left[t]] : fieldLabels[points.nearestTriangle(triangles[3 * t + 2])];
        }
        int[] index = new int[patch.vertexCount()];
        Arrays.fill(index, -1);
        int used = 0;
        for (int i = 0; i < triangles.length; i++) {
            if (index[triangles[i]] < 0) {
                index[triangles[i]] = used++;
            }
        }
        double[] xyz = new double[3 * used];
        int[] origin = new int[used];
        for (int v = 0; v < index.length; v++) {
            if (index[v] >= 0) {
                origin[index[v]] = v < sheet.given().length ? sheet.given()[v] : -1;
                for (int k = 0; k < 3; k++) {
                    xyz[3 * index[v] + k] = patch.get(v, k);
                }
            }
        }
        for (int i = 0; i < triangles.length; i++) {
            triangles[i] = index[triangles[i]];
        }
        return new Result(new LabelledSheet(new TriangleMesh(xyz, triangles), left, origin), cellMm);
    }
}
