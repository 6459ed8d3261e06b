package layupmold.geometry.drape;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.geom.util.GeometryFixer;
import org.locationtech.jts.simplify.DouglasPeuckerSimplifier;

/**
 * A ply as it is cut from flat cloth, seen from the side that faces the maker; mm, x along the warp, the start mark in
 * the origin.
 *
 * @param outline where to cut: the tool's outline in the cloth, widened by the margin
 * @param trimLines where the part will be trimmed after demolding: its perimeter and its openings, closed unless a dart
 *     interrupts them
 * @param notches short strokes from the outline inwards where the two threads through the start mark cross it
 * @param darts wedges to cut out where the cloth cannot lie
 * @param split where to cut the ply in two, or null
 * @param marginMm cloth beyond the tool's outline
 */
public record FlatPattern(
        Polygon outline, List<LineString> trimLines, List<LineString> notches, List<Polygon> darts, LineString split,
        double marginMm) {

    private static final GeometryFactory FACTORY = new GeometryFactory();
    private static final double NOTCH_MM = 8;
    /** Outlines are thinned by this much at most, well under what scissors can follow. */
    private static final double THINNING_MM = 0.02;

    public FlatPattern {
        trimLines = List.copyOf(trimLines);
        notches = List.copyOf(notches);
        darts = List.copyOf(darts);
    }

    /**
     * @param marginMm at least 0
     * @throws IllegalArgumentException if no cloth lies on the sheet
     */
    public static FlatPattern of(DrapedPly ply, double marginMm) {
        ToolSheet sheet = ply.sheet();
        Geometry covered = coveredArea(sheet.mesh(), ply.uv());
        for (DrapedPly.Dart dart : ply.darts()) {
            covered = covered.union(wedge(dart, 0));
        }
        Polygon outline = largest(DouglasPeuckerSimplifier.simplify(largest(covered).buffer(marginMm, 16), THINNING_MM));
        outline = FACTORY.createPolygon(outline.getExteriorRing());
        List<Polygon> darts = new ArrayList<>();
        for (DrapedPly.Dart dart : ply.darts()) {
            Geometry wedge = wedge(dart, reach(outline)).intersection(outline);
            if (!wedge.isEmpty()) {
                darts.add(largest(wedge));
            }
        }
        return new FlatPattern(outline, trimLines(sheet, ply.uv()), notches(outline), darts,
                split(ply.split(), outline), marginMm);
    }

    /** The boundaries of the trimmed sheet in the cloth, interrupted where a dart cuts them. */
    private static List<LineString> trimLines(ToolSheet sheet, double[] uv) {
        List<LineString> lines = new ArrayList<>();
        for (int[] loop : EdgeTopology.of(sheet.trimmed()).boundaryLoops()) {
            int n = loop.length;
            int[] at = new int[n];
            int from = 0;
            for (int k = 0; k < n; k++) {
                at[k] = sheet.trimmed().triangles()[loop[k]];
                from = sheet.isOnSlit(at[k]) && !sheet.isOnSlit(at[(k + n - 1) % n]) ? k : from;
            }
            // A slit's side is the part of a loop between two of its vertices.
            List<Coordinate> line = new ArrayList<>();
            for (int k = 0; k <= n; k++) {
                int v = at[(from + k) % n];
                boolean alongSlit = k > 0 && sheet.isOnSlit(v) && sheet.isOnSlit(at[(from + k - 1) % n]);
                if (alongSlit) {
                    addLine(lines, line);
                    line = new ArrayList<>();
                }
                if (!Double.isNaN(uv[2 * v])) {
                    line.add(new Coordinate(uv[2 * v], uv[2 * v + 1]));
                }
            }
            addLine(lines, line);
        }
        return lines;
    }

    private static void addLine(List<LineString> lines, List<Coordinate> line) {
        if (line.size() >= 3) {
            lines.add(FACTORY.createLineString(line.toArray(new Coordinate[0])));
        }
    }

    /** The sheet's outer boundary in the cloth, its holes filled. */
    private static Geometry coveredArea(TriangleMesh mesh, double[] uv) {
        Polygon best = null;
        for (List<Coordinate> loop : loops(mesh, uv)) {
            Polygon polygon = FACTORY.createPolygon(loop.toArray(new Coordinate[0]));
            best = best == null || polygon.getArea() > best.getArea() ? polygon : best;
        }
        if (best == null) {
            throw new IllegalArgumentException("no cloth lies on the sheet");
        }
        return best.isValid() ? best : GeometryFixer.fix(best);
    }

    /** Boundary loops of a mesh in flat coordinates, closed; vertices without cloth are left out. */
    private static List<List<Coordinate>> loops(TriangleMesh mesh, double[] uv) {
        List<List<Coordinate>> loops = new ArrayList<>();
        for (int[] halfEdges : EdgeTopology.of(mesh).boundaryLoops()) {
            List<Coordinate> loop = new ArrayList<>();
            for (int h : halfEdges) {
                int v = mesh.triangles()[h];
                if (!Double.isNaN(uv[2 * v])) {
                    loop.add(new Coordinate(uv[2 * v], uv[2 * v + 1]));
                }
            }
            if (loop.size() >= 3) {
                loop.add(loop.get(0).copy());
                loops.add(loop);
            }
        }
        return loops;
    }

    private static Polygon largest(Geometry geometry) {
        Polygon best = FACTORY.createPolygon();
        for (int k = 0; k < geometry.getNumGeometries(); k++) {
            if (geometry.getGeometryN(k) instanceof Polygon p && p.getArea() > best.getArea()) {
                best = p;
            }
        }
        return best;
    }

    private static List<LineString> notches(Polygon outline) {
        List<LineString> notches = new ArrayList<>();
        double reach = reach(outline);
        for (double[] d : new double[][] {{1, 0}, {0, 1}, {-1, 0}, {0, -1}}) {
            Geometry hit = line(0, 0, reach * d[0], reach * d[1]).intersection(outline.getExteriorRing());
            Coordinate farthest = null;
            for (Coordinate c : hit.getCoordinates()) {
                farthest = farthest == null || Math.hypot(c.x, c.y) > Math.hypot(farthest.x, farthest.y) ? c : farthest;
            }
            if (farthest != null) {
                notches.add(line(farthest.x, farthest.y, farthest.x - NOTCH_MM * d[0], farthest.y - NOTCH_MM * d[1]));
            }
        }
        return notches;
    }

    /** @param further how far to go on past the tool's edge */
    private static Geometry wedge(DrapedPly.Dart dart, double further) {
        List<Coordinate> ring = side(dart.left(), further);
        List<Coordinate> back = side(dart.right(), further);
        Collections.reverse(back);
        ring.addAll(back);
        ring.add(ring.get(0).copy());
        Polygon wedge = FACTORY.createPolygon(ring.toArray(new Coordinate[0]));
        return wedge.isValid() ? wedge : GeometryFixer.fix(wedge);
    }

    private static List<Coordinate> side(double[] uv, double further) {
        List<Coordinate> side = new ArrayList<>();
        for (int k = 0; k < uv.length; k += 2) {
            side.add(new Coordinate(uv[k], uv[k + 1]));
        }
        Coordinate tip = side.get(0);
        Coordinate end = side.get(side.size() - 1);
        double length = end.distance(tip);
        if (further > 0 && length > 0) {
            side.add(new Coordinate(end.x + further * (end.x - tip.x) / length,
                    end.y + further * (end.y - tip.y) / length));
        }
        return side;
    }

    private static LineString split(DrapedPly.Split split, Polygon outline) {
        if (split == null) {
            return null;
        }
        double reach = reach(outline);
        LineString thread = split.alongWarp() ? line(-reach, split.atMm(), reach, split.atMm())
                : line(split.atMm(), -reach, split.atMm(), reach);
        Coordinate[] inside = thread.intersection(outline).getCoordinates();
        return inside.length < 2 ? null
                : FACTORY.createLineString(new Coordinate[] {inside[0], inside[inside.length - 1]});
    }

    private static double reach(Polygon outline) {
        var box = outline.getEnvelopeInternal();
        return 10 + Math.max(Math.max(box.getMaxX(), -box.getMinX()), Math.max(box.getMaxY(), -box.getMinY()));
    }

    private static LineString line(double x0, double y0, double x1, double y1) {
        return FACTORY.createLineString(new Coordinate[] {new Coordinate(x0, y0), new Coordinate(x1, y1)});
    }
}
