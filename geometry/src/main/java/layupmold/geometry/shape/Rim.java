package layupmold.geometry.shape;

/**
 * How the two walls of a shell are joined along a loop, as a section: points from outer to inner wall, each given by
 * its share of the wall thickness below the outer wall and its share beyond the loop.
 *
 * @param depth share of the thickness, 0 (outer wall) to 1 (inner wall), ends left out, symmetric about the middle
 * @param reach distance beyond the loop as a share of the thickness
 */
public record Rim(double[] depth, double[] reach) {

    /** A flat strip at right angles to the walls, split in the middle so that it has halves too. */
    public static Rim sharp() {
        return new Rim(new double[] {0.5}, new double[] {0});
    }

    /** A half circle, tangent to both walls. */
    public static Rim fullRound(int segments) {
        int even = Math.max(2, segments + segments % 2);
        double[] depth = new double[even - 1];
        double[] reach = new double[even - 1];
        for (int i = 1; i < even; i++) {
            double angle = Math.PI * i / even;
            depth[i - 1] = (1 - StrictMath.cos(angle)) / 2;
            reach[i - 1] = StrictMath.sin(angle) / 2;
        }
        return new Rim(depth, reach);
    }

    /** Two 45° chamfers that each take {@code share} (below 0.5) of the thickness, and a flat land between. */
    public static Rim chamfered(double share) {
        return new Rim(new double[] {share, 0.5, 1 - share}, new double[] {share, share, share});
    }

    public int pointCount() {
        return depth.length;
    }
}
