package layupmold.geometry.offset.repair;

import com.carrotsearch.hppc.IntArrayList;
import com.carrotsearch.hppc.IntHashSet;
import com.carrotsearch.hppc.IntIntHashMap;
import com.carrotsearch.hppc.IntObjectHashMap;
import com.carrotsearch.hppc.LongIntHashMap;
import com.carrotsearch.hppc.LongObjectHashMap;
import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Keeps of a mesh what lies outside a set of grid cells, cut exactly along the cells' faces, and hands every cell of
 * the set the segments in which the kept part meets its faces.
 *
 * <p>Every new vertex is made once, from its mesh edge and plane or from its triangle and grid line, so that the kept
 * part has no cracks. Triangles away from the set are kept whole.
 */
final class MeshClipper {

    private final TriangleMesh mesh;
    private final EdgeTopology topology;
    private final CellGrid grid;
    private final RepairRegion region;
    private final PatchMesh out;

    private final LongIntHashMap edgePoints = new LongIntHashMap();
    private final IntObjectHashMap<IntArrayList> pointsOfEdge = new IntObjectHashMap<>();
    private final List<Piece> pieces = new ArrayList<>();
    private final IntArrayList whole = new IntArrayList();

    /** For each cell of the set, directed segments (from, to) that its own surface has to run along. */
    final LongObjectHashMap<IntArrayList> segments = new LongObjectHashMap<>();
    /** Vertices in which the kept part's border crosses a grid edge. */
    final LongObjectHashMap<IntArrayList> crossings = new LongObjectHashMap<>();
    private final IntHashSet recorded = new IntHashSet();

    private int current;
    private final LongIntHashMap linePoints = new LongIntHashMap();
    private final IntObjectHashMap<IntArrayList> pointsOfPlane = new IntObjectHashMap<>();
    private final IntIntHashMap freeAxisOf = new IntIntHashMap();
    private final IntHashSet rising = new IntHashSet();

    private record Piece(int triangle, CutPolygon polygon, IntObjectHashMap<IntArrayList> planePoints) {
    }

    /**
     * @param mesh what is clipped; it may be unsound inside the set of cells
     * @param out holds the mesh's vertices and receives what is kept
     */
    MeshClipper(TriangleMesh mesh, EdgeTopology topology, CellGrid grid, RepairRegion region, PatchMesh out) {
        this.mesh = mesh;
        this.topology = topology;
        this.grid = grid;
        this.region = region;
        this.out = out;
    }

    void clip() {
        int[] low = new int[3];
        int[] high = new int[3];
        for (int t = 0; t < mesh.triangleCount(); t++) {
            indexBox(t, low, high);
            if (!region.mayMeet(low[0] - 1, low[1] - 1, low[2] - 1, high[0] + 1, high[1] + 1, high[2] + 1)) {
                whole.add(t);
                continue;
            }
            current = t;
            linePoints.clear();
            pointsOfPlane.clear();
            int first = pieces.size();
            int[] corners = mesh.triangles();
            split(new CutPolygon(new int[] {corners[3 * t], corners[3 * t + 1], corners[3 * t + 2]},
                    new int[] {0, 1, 2}), low.clone(), high.clone());
            if (pieces.size() > first) {
                IntObjectHashMap<IntArrayList> planes = pointsOfPlane.clone();
                for (int i = first; i < pieces.size(); i++) {
                    pieces.set(i, new Piece(t, pieces.get(i).polygon, planes));
                }
            }
        }
        emit();
    }

    private void indexBox(int t, int[] low, int[] high) {
        int[] corners = mesh.triangles();
        for (int axis = 0; axis < 3; axis++) {
            int a = grid.index(out.get(corners[3 * t], axis), axis);
            int b = grid.index(out.get(corners[3 * t + 1], axis), axis);
            int c = grid.index(out.get(corners[3 * t + 2], axis), axis);
            low[axis] = Math.min(a, Math.min(b, c));
            high[axis] = Math.max(a, Math.max(b, c));
        }
    }

    /** Halves the piece's index box until it is clear of the set, inside it, or one cell beside it. */
    private void split(CutPolygon polygon, int[] low, int[] high) {
        if (!region.mayMeet(low[0] - 1, low[1] - 1, low[2] - 1, high[0] + 1, high[1] + 1, high[2] + 1)) {
            pieces.add(new Piece(current, polygon, null));
            return;
        }
        int axis = 0;
        for (int k = 1; k < 3; k++) {
            if (high[k] - low[k] > high[axis] - low[axis]) {
                axis = k;
            }
        }
        if (high[axis] == low[axis]) {
            if (!region.contains(CellGrid.key(low[0], low[1], low[2]))) {
                pieces.add(new Piece(current, polygon, null));
                recordBorder(polygon, low);
            }
            return;
        }
        int cut = (low[axis] + high[axis]) / 2 + 1;
        double plane = grid.plane(axis, cut);
        boolean[] below = new boolean[polygon.vertices().length];
        for (int i = 0; i < below.length; i++) {
            below[i] = out.get(polygon.vertices()[i], axis) < plane;
        }
        int cutAxis = axis;
        int tag = CutPolygon.planeTag(axis, cut);
        CutPolygon.Crossing crossing = (from, to, edge) -> crossing(from, to, edge, cutAxis, cut);
        int limit = high[axis];
        CutPolygon lower = polygon.part(below, true, tag, crossing);
        if (lower != null) {
            high[axis] = cut - 1;
            split(lower, low.clone(), high.clone());
        }
        CutPolygon upper = polygon.part(below, false, tag, crossing);
        if (upper != null) {
            high[axis] = limit;
            low[axis] = cut;
            split(upper, low.clone(), high.clone());
        }
    }

    private int crossing(int from, int to, int tag, int axis, int plane) {
        int vertex = CutPolygon.isPlane(tag)
                ? onGridLine(from, to, tag, axis, plane) : onMeshEdge(3 * current + tag, axis, plane);
        pointsOf(pointsOfPlane, CutPolygon.planeTag(axis, plane)).add(vertex);
        return vertex;
    }

    private int onMeshEdge(int halfEdge, int axis, int plane) {
        int edge = edgeId(halfEdge);
        long key = ((long) edge << 2 | axis) << CellGrid.BITS | plane;
        if (edgePoints.containsKey(key)) {
            return edgePoints.get(key);
        }
        int a = Math.min(topology.from(halfEdge), topology.to(halfEdge));
        int b = Math.max(topology.from(halfEdge), topology.to(halfEdge));
        int vertex = cut(a, b, axis, plane);
        edgePoints.put(key, vertex);
        pointsOf(pointsOfEdge, edge).add(vertex);
        return vertex;
    }

    private int edgeId(int halfEdge) {
        int twin = topology.twin(halfEdge);
        return twin >= 0 ? Math.min(halfEdge, twin) : halfEdge;
    }

    private int onGridLine(int from, int to, int tag, int axis, int plane) {
        int otherAxis = CutPolygon.planeAxis(tag);
        int otherPlane = CutPolygon.planeIndex(tag);
        int free = 3 - axis - otherAxis;
        boolean ordered = axis < otherAxis;
        long key = ((long) free << CellGrid.BITS | (ordered ? plane : otherPlane)) << CellGrid.BITS
                | (ordered ? otherPlane : plane);
        if (linePoints.containsKey(key)) {
            int known = linePoints.get(key);
            pointsOf(pointsOfPlane, tag).add(known);
            return known;
        }
        int vertex = cut(Math.min(from, to), Math.max(from, to), axis, plane);
        linePoints.put(key, vertex);
        freeAxisOf.put(vertex, free);
        if (isRising(free)) {
            rising.add(vertex);
        }
        pointsOf(pointsOfPlane, tag).add(vertex);
        return vertex;
    }

    /** Whether the current triangle's front faces up an axis. */
    private boolean isRising(int axis) {
        int i = (axis + 1) % 3;
        int j = (axis + 2) % 3;
        int a = mesh.triangles()[3 * current];
        int b = mesh.triangles()[3 * current + 1];
        int c = mesh.triangles()[3 * current + 2];
        return (out.get(b, i) - out.get(a, i)) * (out.get(c, j) - out.get(a, j))
                > (out.get(b, j) - out.get(a, j)) * (out.get(c, i) - out.get(a, i));
    }

    /** Whether the kept part's front at a vertex on a grid edge faces the edge's upper end. */
    boolean rises(int vertex) {
        return rising.contains(vertex);
    }

    private int cut(int a, int b, int axis, int plane) {
        double target = grid.plane(axis, plane);
        double share = (target - out.get(a, axis)) / (out.get(b, axis) - out.get(a, axis));
        double[] p = new double[3];
        for (int k = 0; k < 3; k++) {
            p[k] = k == axis ? target : out.get(a, k) + share * (out.get(b, k) - out.get(a, k));
        }
        return out.addVertex(p[0], p[1], p[2]);
    }

    private static IntArrayList pointsOf(IntObjectHashMap<IntArrayList> map, int key) {
        IntArrayList list = map.get(key);
        if (list == null) {
            list = new IntArrayList(4);
            map.put(key, list);
        }
        return list;
    }

    /** Notes the edges of a kept piece that lie on faces of cells of the set. */
    private void recordBorder(CutPolygon polygon, int[] cell) {
        int n = polygon.vertices().length;
        for (int i = 0; i < n; i++) {
            int tag = polygon.tags()[i];
            if (!CutPolygon.isPlane(tag)) {
                continue;
            }
            int axis = CutPolygon.planeAxis(tag);
            int[] across = cell.clone();
            across[axis] += CutPolygon.planeIndex(tag) == cell[axis] ? -1 : 1;
            long neighbour = CellGrid.key(across[0], across[1], across[2]);
            if (!region.contains(neighbour)) {
                continue;
            }
            int from = polygon.vertices()[i];
            int to = polygon.vertices()[(i + 1) % n];
            IntArrayList list = segments.get(neighbour);
            if (list == null) {
                list = new IntArrayList(8);
                segments.put(neighbour, list);
            }
            list.add(to, from);
            recordCrossing(from);
            recordCrossing(to);
        }
    }

    private void recordCrossing(int vertex) {
        int free = freeAxisOf.getOrDefault(vertex, -1);
        if (free < 0 || !recorded.add(vertex)) {
            return;
        }
        int[] corner = new int[3];
        for (int k = 0; k < 3; k++) {
            double position = (out.get(vertex, k) - grid.origin(k)) / grid.size;
            corner[k] = k == free ? (int) Math.floor(position) : (int) Math.round(position);
        }
        long key = CellGrid.edgeKey(CellGrid.key(corner[0], corner[1], corner[2]), free);
        IntArrayList list = crossings.get(key);
        if (list == null) {
            list = new IntArrayList(1);
            crossings.put(key, list);
        }
        list.add(vertex);
    }

    /** Turns whole triangles and pieces into triangles, with every point that a neighbour has on a common edge. */
    private void emit() {
        int[] corners = mesh.triangles();
        for (int i = 0; i < whole.size(); i++) {
            int t = whole.get(i);
            CutPolygon triangle = new CutPolygon(
                    new int[] {corners[3 * t], corners[3 * t + 1], corners[3 * t + 2]}, new int[] {0, 1, 2});
            emit(t, triangle, null);
        }
        for (Piece piece : pieces) {
            emit(piece.triangle, piece.polygon, piece.planePoints);
        }
    }

    private void emit(int triangle, CutPolygon polygon, IntObjectHashMap<IntArrayList> planePoints) {
        IntArrayList ring = new IntArrayList(8);
        boolean plain = true;
        int n = polygon.vertices().length;
        for (int i = 0; i < n; i++) {
            int from = polygon.vertices()[i];
            int to = polygon.vertices()[(i + 1) % n];
            int tag = polygon.tags()[i];
            ring.add(from);
            IntArrayList candidates = CutPolygon.isPlane(tag)
                    ? planePoints.get(tag) : pointsOfEdge.get(edgeId(3 * triangle + tag));
            if (candidates != null) {
                plain &= !insertBetween(ring, from, to, candidates);
            }
        }
        if (plain && n == 3) {
            out.addTriangle(ring.get(0), ring.get(1), ring.get(2), triangle);
            return;
        }
        int size = ring.size();
        int centre = out.addVertex(mean(ring, 0), mean(ring, 1), mean(ring, 2));
        for (int i = 0; i < size; i++) {
            out.addTriangle(centre, ring.get(i), ring.get((i + 1) % size), triangle);
        }
    }

    private double mean(IntArrayList ring, int axis) {
        double sum = 0;
        for (int i = 0; i < ring.size(); i++) {
            sum += out.get(ring.get(i), axis);
        }
        return sum / ring.size();
    }

    /** Appends the candidates strictly between two ends of a straight edge, in order; true if there were any. */
    private boolean insertBetween(IntArrayList ring, int from, int to, IntArrayList candidates) {
        double[] d = new double[3];
        double length = 0;
        for (int k = 0; k < 3; k++) {
            d[k] = out.get(to, k) - out.get(from, k);
            length += d[k] * d[k];
        }
        int first = ring.size();
        double[] shares = new double[candidates.size()];
        for (int i = 0; i < candidates.size(); i++) {
            int v = candidates.get(i);
            if (v == from || v == to) {
                continue;
            }
            double share = 0;
            for (int k = 0; k < 3; k++) {
                share += (out.get(v, k) - out.get(from, k)) * d[k];
            }
            share /= length;
            if (share <= 0 || share >= 1) {
                continue;
            }
            int at = ring.size();
            ring.add(v);
            while (at > first && shares[at - 1 - first] > share) {
                ring.set(at, ring.get(at - 1));
                shares[at - first] = shares[at - 1 - first];
                at--;
            }
            if (at > first && ring.get(at - 1) == v) {
                // The same point was noted by both neighbours of a cut: drop the copy.
                for (int i2 = at; i2 < ring.size() - 1; i2++) {
                    ring.set(i2, ring.get(i2 + 1));
                    shares[i2 - first] = shares[i2 + 1 - first];
                }
                ring.removeAt(ring.size() - 1);
                continue;
            }
            ring.set(at, v);
            shares[at - first] = share;
        }
        return ring.size() > first;
    }
}
