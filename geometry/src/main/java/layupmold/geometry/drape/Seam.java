package layupmold.geometry.drape;

import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.mesh.EdgeTopology;

/**
 * A way over the sheet from a point inside it to its edge, where an upright plane meets the sheet: both sides of a dart
 * lie along it.
 *
 * @param triangle where it begins
 * @param tip its first point
 * @param exits half-edges it leaves triangles by, in order, the sheet's edge last
 * @param crossings where, three numbers each
 */
record Seam(int triangle, double[] tip, int[] exits, double[] crossings) {

    /** Turns tried, since a way that all but meets a vertex makes triangles too thin to walk over. */
    private static final double[] TURNS_DEG = {0, 0.4, -0.4, 0.8, -0.8, 1.2, -1.2};

    /**
     * @param towardsX direction in plan
     * @param towardsY direction in plan
     * @param reachMm longest way
     * @return null if there is no way to the edge
     */
    static Seam toEdge(ToolSheet sheet, int triangle, double[] tip, double towardsX, double towardsY, double reachMm) {
        Seam clearest = null;
        double most = 0;
        for (double turn : TURNS_DEG) {
            double cos = Math.cos(Math.toRadians(turn));
            double sin = Math.sin(Math.toRadians(turn));
            Seam seam = along(sheet, triangle, tip, cos * towardsX - sin * towardsY, sin * towardsX + cos * towardsY,
                    reachMm);
            double clear = seam == null ? 0 : seam.leastMm(sheet);
            if (clear > most) {
                most = clear;
                clearest = seam;
            }
        }
        return clearest;
    }

    private static Seam along(ToolSheet sheet, int triangle, double[] tip, double x, double y, double reachMm) {
        double length = Math.hypot(x, y);
        if (!(length > 0)) {
            return null;
        }
        double[] plane = {y / length, -x / length, 0};
        SectionWalk walk = new SectionWalk(sheet);
        List<Integer> exits = new ArrayList<>();
        List<double[]> crossings = new ArrayList<>();
        walk.crossings = (exit, twin) -> {
            exits.add(exit);
            crossings.add(walk.crossing.clone());
        };
        walk.lastExit = -1;
        walk.walk(plane, triangle, tip, new double[] {x / length, y / length, 0}, reachMm,
                (px, py, pz, qx, qy, qz) -> -1);
        if (walk.lastExit < 0 || sheet.topology().twin(walk.lastExit) != EdgeTopology.BOUNDARY) {
            return null;
        }
        exits.add(walk.lastExit);
        crossings.add(walk.crossing.clone());
        double[] flat = new double[3 * crossings.size()];
        for (int k = 0; k < crossings.size(); k++) {
            System.arraycopy(crossings.get(k), 0, flat, 3 * k, 3);
        }
        return new Seam(triangle, tip.clone(), exits.stream().mapToInt(e -> e).toArray(), flat);
    }

    /** How near it comes to a vertex along an edge. */
    private double leastMm(ToolSheet sheet) {
        double[] xyz = sheet.mesh().xyz();
        double least = Double.POSITIVE_INFINITY;
        for (int k = 0; k < exits.length; k++) {
            for (int v : new int[] {sheet.topology().from(exits[k]), sheet.topology().to(exits[k])}) {
                least = Math.min(least, Math.hypot(Math.hypot(xyz[3 * v] - crossings[3 * k],
                        xyz[3 * v + 1] - crossings[3 * k + 1]), xyz[3 * v + 2] - crossings[3 * k + 2]));
            }
        }
        return least;
    }
}
