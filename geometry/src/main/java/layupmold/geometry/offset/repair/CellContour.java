package layupmold.geometry.offset.repair;

import com.carrotsearch.hppc.IntArrayList;
import com.carrotsearch.hppc.LongIntHashMap;
import com.carrotsearch.hppc.LongObjectHashMap;

/**
 * Spans the field's zero set through the cells of a region as cones: each cell's piece joins an inner apex to the
 * closed curve in which the surface crosses the cell's faces.
 *
 * <p>Curves come from the kept mesh where a face borders it, else from the corners' sides. Apexes minimise the squared
 * distances to the tangent planes of the curve's points, as in dual contouring (Ju, Losasso, Schaefer and Warren,
 * "Dual contouring of Hermite data", 2002), so creases stay sharp; and since a cone over a simple curve on the boundary
 * of a convex cell cannot meet itself or leave the cell, pieces cannot cross (compare Ju and Udeshi, "Intersection-free
 * contouring on an octree grid", 2006). Only two curves in one cell are not covered by that argument.
 */
final class CellContour {

    private static final int[][] FACE_AXES = {{1, 2}, {2, 0}, {0, 1}};

    private final CellGrid grid;
    private final RepairRegion region;
    private final CornerValues corners;
    private final MeshClipper kept;
    private final SurfacePoints points;
    private final PatchMesh out;
    private final LongIntHashMap edgeVertices = new LongIntHashMap();
    private final LongObjectHashMap<int[]> faces = new LongObjectHashMap<>();
    private final LongIntHashMap next = new LongIntHashMap();

    CellContour(CellGrid grid, RepairRegion region, CornerValues corners, MeshClipper kept, SurfacePoints points,
            PatchMesh out) {
        this.grid = grid;
        this.region = region;
        this.corners = corners;
        this.kept = kept;
        this.points = points;
        this.out = out;
    }

    /** Adds the pieces of all cells. */
    void span(long[] cells) {
        IntArrayList curve = new IntArrayList();
        for (long cell : cells) {
            if (gather(cell, curve)) {
                close(cell, curve);
            }
        }
    }

    /** Collects the cell's directed segments; false if there are none or the cell lies beyond the sheet's boundary. */
    private boolean gather(long cell, IntArrayList curve) {
        curve.clear();
        int outside = 0;
        for (int k = 0; k < 8; k++) {
            long corner = CornerValues.corner(cell, k);
            if (corners.isBeyondBoundary(corner)) {
                return false;
            }
            outside += corners.isOutside(corner) ? 1 : 0;
        }
        IntArrayList border = kept.segments.get(cell);
        if (border != null) {
            curve.addAll(border);
        }
        if (outside > 0 && outside < 8) {
            for (int axis = 0; axis < 3; axis++) {
                if (region.contains(cell - CellGrid.STEP[axis])) {
                    addFace(cell, axis, false, curve);
                }
                if (region.contains(cell + CellGrid.STEP[axis])) {
                    addFace(cell + CellGrid.STEP[axis], axis, true, curve);
                }
            }
        }
        return !curve.isEmpty();
    }

    /** @param upper true if the face is the cell's upper one, whose normal leads out of the cell along the axis */
    private void addFace(long lowerCorner, int axis, boolean upper, IntArrayList curve) {
        long key = CellGrid.edgeKey(lowerCorner, axis);
        int[] face = faces.get(key);
        if (face == null) {
            face = contourFace(lowerCorner, axis);
            faces.put(key, face);
        }
        for (int i = 0; i < face.length; i += 3) {
            int a = upper ? face[i] : face[i + 2];
            int b = upper ? face[i + 2] : face[i];
            curve.add(a, face[i + 1]);
            curve.add(face[i + 1], b);
        }
    }

    /** Segments (start, middle, end) on a face, the outside on their left seen against the axis. */
    private int[] contourFace(long lowerCorner, int axis) {
        int b = FACE_AXES[axis][0];
        int c = FACE_AXES[axis][1];
        long[] q = {lowerCorner, lowerCorner + CellGrid.STEP[b],
            lowerCorner + CellGrid.STEP[b] + CellGrid.STEP[c], lowerCorner + CellGrid.STEP[c]};
        long[] edges = {CellGrid.edgeKey(q[0], b), CellGrid.edgeKey(q[1], c), CellGrid.edgeKey(q[3], b),
            CellGrid.edgeKey(q[0], c)};
        boolean[] out4 = new boolean[4];
        int changes = 0;
        for (int i = 0; i < 4; i++) {
            out4[i] = corners.isOutside(q[i]);
        }
        for (int i = 0; i < 4; i++) {
            changes += out4[i] != out4[(i + 1) % 4] ? 1 : 0;
        }
        if (changes == 0) {
            return new int[0];
        }
        boolean outsideIsolated = changes == 2 || !points.isOutside(faceCentre(lowerCorner, b, c));
        int[] segments = new int[3 * changes / 2];
        int n = 0;
        for (int i = 0; i < 4; i++) {
            // A curve starts where, going around counter-clockwise, outside turns to inside.
            if (!out4[i] || out4[(i + 1) % 4]) {
                continue;
            }
            int end = i;
            int step = outsideIsolated ? 3 : 1;
            do {
                end = (end + step) % 4;
            } while (out4[end] || !out4[(end + 1) % 4]);
            int from = edgeVertex(edges[i]);
            int to = edgeVertex(edges[end]);
            segments[n++] = from;
            // Two curves on one face keep clear of each other only if they are straight.
            segments[n++] = changes == 2 ? points.between(from, to, axis, lowerCorner, grid) : points.midway(from, to);
            segments[n++] = to;
        }
        return segments;
    }

    private double[] faceCentre(long lowerCorner, int b, int c) {
        double[] p = new double[3];
        for (int k = 0; k < 3; k++) {
            double half = k == b || k == c ? grid.size / 2 : 0;
            p[k] = grid.plane(k, CellGrid.component(lowerCorner, k)) + half;
        }
        return p;
    }

    private int edgeVertex(long edgeKey) {
        IntArrayList known = kept.crossings.get(edgeKey);
        if (known != null) {
            return known.get(0);
        }
        if (edgeVertices.containsKey(edgeKey)) {
            return edgeVertices.get(edgeKey);
        }
        long corner = edgeKey >>> 2;
        int axis = (int) (edgeKey & 3);
        double[] p = new double[3];
        for (int k = 0; k < 3; k++) {
            p[k] = grid.plane(k, CellGrid.component(corner, k));
        }
        int vertex = points.onEdge(p, axis, grid.size, corners.values[corners.index(corner)],
                corners.values[corners.index(corner + CellGrid.STEP[axis])]);
        edgeVertices.put(edgeKey, vertex);
        return vertex;
    }

    /** Links the segments to closed curves and adds a cone over each. */
    private void close(long cell, IntArrayList curve) {
        next.clear();
        for (int i = 0; i < curve.size(); i += 2) {
            if (next.containsKey(curve.get(i))) {
                throw new ContourException(cell);
            }
            next.put(curve.get(i), curve.get(i + 1));
        }
        IntArrayList loop = new IntArrayList();
        for (int i = 0; i < curve.size(); i += 2) {
            int start = curve.get(i);
            if (!next.containsKey(start)) {
                continue;
            }
            loop.clear();
            int v = start;
            do {
                loop.add(v);
                if (!next.containsKey(v)) {
                    throw new ContourException(cell);
                }
                v = next.remove(v);
            } while (v != start);
            cone(cell, loop);
        }
    }

    private void cone(long cell, IntArrayList loop) {
        int apex = points.apex(loop, cell, grid);
        for (int i = 0; i < loop.size(); i++) {
            out.addTriangle(loop.get(i), loop.get((i + 1) % loop.size()), apex, -1);
        }
    }
}
