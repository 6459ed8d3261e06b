package layupmold.geometry.drape;

import org.joml.Vector3d;

/**
 * Direction in which the warp must leave the start point so that, over a hand's breadth of tool, it runs at the wanted
 * angle in plan: taken in the start's own triangle alone, the wall of a groove there would turn the whole ply.
 */
final class WarpAim {

    private static final int ROUNDS = 4;
    private static final double CLOSE = Math.toRadians(0.05);

    private WarpAim() {
    }

    /** @param reachMm how far to look both ways */
    static Vector3d from(ToolSheet sheet, StartSearch.Start start, double angleDeg, double reachMm) {
        GeodesicWalk walk = new GeodesicWalk(sheet, true);
        double[] origin = {start.point().x, start.point().y, start.point().z};
        double wanted = Math.toRadians(angleDeg);
        double aim = wanted;
        for (int round = 0; round < ROUNDS; round++) {
            double dx = 0;
            double dy = 0;
            for (int way = 1; way >= -1; way -= 2) {
                if (!walk.start(start.triangle(), origin, new double[] {way * Math.cos(aim), way * Math.sin(aim), 0})
                        || !walk.step(reachMm)) {
                    return direction(wanted);
                }
                dx += way * walk.point[0];
                dy += way * walk.point[1];
            }
            if (Math.hypot(dx, dy) < 0.2 * reachMm) {
                return direction(wanted);
            }
            double error = Math.IEEEremainder(wanted - Math.atan2(dy, dx), 2 * Math.PI);
            if (Math.abs(error) < CLOSE) {
                break;
            }
            aim += error;
        }
        return direction(aim);
    }

    private static Vector3d direction(double radians) {
        return new Vector3d(Math.cos(radians), Math.sin(radians), 0);
    }
}
