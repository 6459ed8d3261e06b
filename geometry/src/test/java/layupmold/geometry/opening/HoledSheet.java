package layupmold.geometry.opening;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import java.util.TreeSet;
import java.util.stream.DoubleStream;
import layupmold.geometry.delaunay.ConstrainedDelaunay;
import layupmold.geometry.mark.TrimMark;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Test faces with openings of known outline: a square of the uv plane with holes, filled with jittered points about
 * {@code spacing} apart and mapped into space.
 */
final class HoledSheet {

    /** A surface in space over the uv plane. */
    @FunctionalInterface
    interface Surface {
        double[] at(double u, double v);
    }

    final TriangleMesh mesh;
    final EdgeTopology topology;
    /** The boundary loop that reaches farthest. */
    final int[] perimeter;
    /** All other loops, in the order of the topology. */
    final List<int[]> openings;

    HoledSheet(TriangleMesh mesh) {
        this.mesh = mesh;
        this.topology = EdgeTopology.of(mesh);
        List<int[]> loops = new ArrayList<>(topology.boundaryLoops());
        this.perimeter = loops.stream().max(Comparator.comparingDouble(this::spread)).orElseThrow();
        loops.remove(perimeter);
        this.openings = loops;
    }

    /** The square |u|, |v| ≤ half with holes, each given as u, v pairs. */
    static HoledSheet of(double half, double spacing, List<double[]> holes, Surface surface) {
        List<double[]> rings = new ArrayList<>();
        rings.add(square(half, spacing));
        rings.addAll(holes);
        int corners = rings.stream().mapToInt(r -> r.length / 2).sum();
        double[] inner = jitteredGrid(half, spacing, rings);
        double[] uv = new double[2 * corners + inner.length];
        int[][] loops = new int[rings.size()][];
        int at = 0;
        for (int r = 0; r < loops.length; r++) {
            loops[r] = new int[rings.get(r).length / 2];
            for (int i = 0; i < loops[r].length; i++) {
                loops[r][i] = at / 2 + i;
            }
            System.arraycopy(rings.get(r), 0, uv, at, rings.get(r).length);
            at += rings.get(r).length;
        }
        System.arraycopy(inner, 0, uv, at, inner.length);
        int[] extra = new int[inner.length / 2];
        Arrays.setAll(extra, i -> corners + i);
        int[] triangles = ConstrainedDelaunay.polygon(uv, loops, extra);
        double[] xyz = new double[uv.length / 2 * 3];
        for (int p = 0; p < uv.length / 2; p++) {
            System.arraycopy(surface.at(uv[2 * p], uv[2 * p + 1]), 0, xyz, 3 * p, 3);
        }
        return new HoledSheet(new TriangleMesh(xyz, triangles));
    }

    static double[] circle(double u, double v, double radius, int corners) {
        return ellipse(u, v, radius, radius, corners);
    }

    static double[] ellipse(double u, double v, double ru, double rv, int corners) {
        double[] ring = new double[2 * corners];
        for (int i = 0; i < corners; i++) {
            ring[2 * i] = u + ru * Math.cos(2 * Math.PI * i / corners);
            ring[2 * i + 1] = v + rv * Math.sin(2 * Math.PI * i / corners);
        }
        return ring;
    }

    /** A flower with the given number of petals: concave between them. */
    static double[] flower(double radius, int petals, double depth, int corners) {
        double[] ring = new double[2 * corners];
        for (int i = 0; i < corners; i++) {
            double angle = 2 * Math.PI * i / corners;
            double r = radius * (1 + depth * Math.cos(petals * angle));
            ring[2 * i] = r * Math.cos(angle);
            ring[2 * i + 1] = r * Math.sin(angle);
        }
        return ring;
    }

    /**
     * A circle with corners where it crosses three sets of parallel lines, as a boolean operation leaves it in a mesh:
     * sides from micrometres to the lines' spacing.
     */
    static double[] cutCircle(double radius, double spacing, double turned) {
        TreeSet<Double> angles = new TreeSet<>();
        int lines = (int) (radius / spacing) + 1;
        for (int set = 0; set < 3; set++) {
            for (int k = -lines; k <= lines; k++) {
                double share = (k + 0.37) * spacing / radius;
                for (int sign = -1; sign <= 1 && Math.abs(share) < 1; sign += 2) {
                    double angle = Math.PI / 3 * set + turned + sign * Math.acos(share);
                    angles.add((angle + 4 * Math.PI) % (2 * Math.PI));
                }
            }
        }
        return angles.stream().flatMapToDouble(a -> DoubleStream.of(radius * Math.cos(a), radius * Math.sin(a)))
                .toArray();
    }

    CappedFace capped() {
        return OpeningCapper.cap(mesh, topology, openings, perimeter);
    }

    /** With a mark right beside every opening, raised or, with a negative depth, sunk. */
    CappedFace capped(double markWidthMm, double markDepthMm) {
        TrimMark[] marks = new TrimMark[openings.size()];
        Arrays.fill(marks, new TrimMark(0, markWidthMm, markDepthMm));
        return OpeningCapper.cap(mesh, topology, openings, perimeter, marks);
    }

    private double spread(int[] loop) {
        double most = 0;
        for (int h : loop) {
            most = Math.max(most, mesh.vertex(topology.from(loop[0])).distance(mesh.vertex(topology.from(h))));
        }
        return most;
    }

    private static double[] square(double half, double spacing) {
        int n = (int) Math.ceil(2 * half / spacing);
        double[] ring = new double[8 * n];
        for (int i = 0; i < n; i++) {
            double s = -half + 2 * half * i / n;
            double[] corners = {s, -half, half, s, -s, half, -half, -s};
            for (int side = 0; side < 4; side++) {
                ring[2 * (side * n + i)] = corners[2 * side];
                ring[2 * (side * n + i) + 1] = corners[2 * side + 1];
            }
        }
        return ring;
    }

    private static double[] jitteredGrid(double half, double spacing, List<double[]> rings) {
        Random random = new Random(7);
        List<Double> points = new ArrayList<>();
        int n = (int) (2 * half / spacing);
        for (int i = 0; i < n; i++) {
            for (int j = 0; j < n; j++) {
                double u = -half + (i + 0.5 + 0.4 * (random.nextDouble() - 0.5)) * 2 * half / n;
                double v = -half + (j + 0.5 + 0.4 * (random.nextDouble() - 0.5)) * 2 * half / n;
                if (isClear(u, v, 0.4 * spacing, rings)) {
                    points.add(u);
                    points.add(v);
                }
            }
        }
        return points.stream().mapToDouble(Double::doubleValue).toArray();
    }

    private static boolean isClear(double u, double v, double gap, List<double[]> rings) {
        for (double[] ring : rings) {
            for (int i = 0; i < ring.length; i += 2) {
                if (Math.hypot(u - ring[i], v - ring[i + 1]) < gap) {
                    return false;
                }
            }
        }
        return true;
    }
}
