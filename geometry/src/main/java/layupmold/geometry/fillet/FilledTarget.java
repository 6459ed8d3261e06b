package layupmold.geometry.fillet;

import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.simplify.Target;

/** What the filled sheet stands for: the ball's envelope, and the sheet itself where the ball rests on it. */
final class FilledTarget implements Target {

    private final RollingBall rolling;
    private final SpotProbe probe;
    private final NearestPoint nearest = new NearestPoint();
    private double frontX;
    private double frontY;
    private double frontZ;

    FilledTarget(RollingBall rolling, FreeCentres centres, Faults faults) {
        this.rolling = rolling;
        this.probe = new SpotProbe(rolling, centres, faults);
    }

    @Override
    public double miss(double x, double y, double z) {
        rolling.bvh().nearest(x, y, z, rolling.radiusMm(), nearest);
        int t = nearest.triangle;
        if (t >= 0 && rolling.rests(probe.ball, nearest.x, nearest.y, nearest.z, t)) {
            double[] n = rolling.normals();
            front(n[3 * t], n[3 * t + 1], n[3 * t + 2]);
            return along(x - nearest.x, y - nearest.y, z - nearest.z);
        }
        double miss = probe.missMm(x, y, z);
        double away = rolling.radiusMm() - miss;
        front((probe.ball.x - x) / away, (probe.ball.y - y) / away, (probe.ball.z - z) / away);
        return miss;
    }

    private void front(double x, double y, double z) {
        frontX = x;
        frontY = y;
        frontZ = z;
    }

    @Override
    public double along(double x, double y, double z) {
        return frontX * x + frontY * y + frontZ * z;
    }
}
