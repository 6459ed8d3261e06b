package layupmold.geometry.opening;

import java.util.ArrayDeque;
import java.util.HashSet;
import java.util.Set;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.LineSegment;

/** How deep the tool around an opening would be caught behind the face's edge. */
final class EdgeUndercut {

    private EdgeUndercut() {
    }

    /**
     * The farthest that the offset of a place on the loop lies, seen along the pull, from where the face begins to lean
     * back, mm; 0 if it does not lean back at the loop, infinite if it does everywhere. O(k + l s) for k triangles that
     * lean back next to the loop, l of them on it and s on the silhouette.
     *
     * @param face pull along z
     * @param loop boundary half-edges
     */
    static double depthMm(TriangleMesh face, EdgeTopology topology, int[] loop, CollarSpec spec) {
        ArrayDeque<Integer> queue = new ArrayDeque<>();
        Set<Integer> seen = new HashSet<>();
        for (int h : loop) {
            if (leansBack(face, h / 3, spec) && seen.add(h / 3)) {
                queue.add(h / 3);
            }
        }
        if (queue.isEmpty()) {
            return 0;
        }
        Set<Integer> silhouette = new HashSet<>();
        while (!queue.isEmpty()) {
            int t = queue.poll();
            for (int h = 3 * t; h < 3 * t + 3; h++) {
                int g = topology.twin(h);
                if (g >= 0 && !leansBack(face, g / 3, spec)) {
                    silhouette.add(h);
                } else if (g >= 0 && seen.add(g / 3)) {
                    queue.add(g / 3);
                }
            }
        }
        int[] sides = silhouette.stream().mapToInt(Integer::intValue).sorted().toArray();
        LineSegment[] end = new LineSegment[sides.length];
        for (int i = 0; i < end.length; i++) {
            end[i] = offsetSide(face, topology, sides[i], spec);
        }
        double deepest = 0;
        for (int h : loop) {
            if (leansBack(face, h / 3, spec)) {
                Coordinate middle = offsetSide(face, topology, h, spec).midPoint();
                double least = Double.POSITIVE_INFINITY;
                for (LineSegment side : end) {
                    least = Math.min(least, side.distance(middle));
                }
                deepest = Math.max(deepest, least);
            }
        }
        return deepest;
    }

    private static boolean leansBack(TriangleMesh face, int t, CollarSpec spec) {
        return spec.front() * face.areaNormal(t).z > 0;
    }

    /** A side of a triangle, offset along its normal, in plan. */
    private static LineSegment offsetSide(TriangleMesh face, EdgeTopology topology, int h, CollarSpec spec) {
        Vector3d normal = face.areaNormal(h / 3);
        double move = spec.offsetMm() / Math.max(normal.length(), Double.MIN_NORMAL);
        Vector3d from = face.vertex(topology.from(h)).fma(move, normal);
        Vector3d to = face.vertex(topology.to(h)).fma(move, normal);
        return new LineSegment(from.x, from.y, to.x, to.y);
    }
}
