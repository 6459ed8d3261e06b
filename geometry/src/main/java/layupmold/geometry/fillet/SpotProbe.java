package layupmold.geometry.fillet;

import com.carrotsearch.hppc.DoubleArrayList;
import layupmold.geometry.bvh.FreeBall;
import layupmold.geometry.bvh.NearestPoint;
import org.joml.Vector3d;

/**
 * Says for points of the sheet where the filling puts them. Used by one thread; some dozen nearest-point queries each.
 */
final class SpotProbe {

    /** Balls that cut in by less can be pushed out, as a share of the radius. */
    private static final double ALMOST_FREE = 0.1;

    private final RollingBall rolling;
    private final FreeCentres centres;
    private final Faults faults;
    private final NearestPoint nearest = new NearestPoint();
    private final DoubleArrayList starts = new DoubleArrayList();
    private double px;
    private double py;
    private double pz;
    final FreeBall ball;

    SpotProbe(RollingBall rolling, FreeCentres centres, Faults faults) {
        this.rolling = rolling;
        this.centres = centres;
        this.faults = faults;
        this.ball = rolling.ball();
    }

    /**
     * @param sources triangles of the sheet that meet in the point
     * @param near spots beside it, whose balls are tried as well
     */
    Spot at(double x, double y, double z, int[] sources, Spot... near) {
        Spot spot = new Spot();
        spot.x = spot.filledX = x;
        spot.y = spot.filledY = y;
        spot.z = spot.filledZ = z;
        double radius = rolling.radiusMm();
        double[] normals = rolling.normals();
        starts.clear();
        for (int t : sources) {
            double cut = rolling.cutMm(ball, x, y, z, t);
            spot.centreX = x + radius * normals[3 * t];
            spot.centreY = y + radius * normals[3 * t + 1];
            spot.centreZ = z + radius * normals[3 * t + 2];
            if (cut <= rolling.restingMm()) {
                return spot;
            }
            if (cut <= ALMOST_FREE * radius) {
                start(spot);
            }
        }
        gather(x, y, z, near);
        double depth = approach(spot) - radius;
        if (depth > rolling.runOutMm() && depth < Double.POSITIVE_INFINITY) {
            spot.depthMm = depth;
            spot.aim(x, y, z, radius);
            spot.share = spot.worth * faults.shareAt(x, y, z);
            spot.fill();
        }
        return spot;
    }

    /**
     * A spot on the filling between two that lie far apart on it although they are next to each other on the sheet: what
     * is between belongs to balls that are nearest to no place of the sheet.
     */
    Spot between(Spot a, Spot b) {
        Spot spot = new Spot();
        spot.isBetween = true;
        spot.x = (a.x + b.x) / 2;
        spot.y = (a.y + b.y) / 2;
        spot.z = (a.z + b.z) / 2;
        starts.clear();
        gather((a.filledX + b.filledX) / 2, (a.filledY + b.filledY) / 2, (a.filledZ + b.filledZ) / 2, a, b);
        approach(spot);
        spot.aim(px, py, pz, rolling.radiusMm());
        spot.depthMm = Math.max(a.depthMm, b.depthMm);
        spot.worth = Math.min(a.worth, b.worth);
        spot.share = spot.worth * faults.shareAt(spot.x, spot.y, spot.z);
        spot.fill();
        return spot;
    }

    /** Finds the ball nearest to the point for the spot; returns how far its centre is, infinite if none is known. */
    private double approach(Spot spot) {
        double best = Double.POSITIVE_INFINITY;
        for (int start = nearest(); start >= 0 && away(start) < best; start = nearest()) {
            double away = approachFrom(start);
            if (away < best) {
                best = away;
                spot.centreX = ball.x;
                spot.centreY = ball.y;
                spot.centreZ = ball.z;
                spot.worth = rolling.worth(ball.crestMm(), away - rolling.radiusMm());
            }
        }
        return best;
    }

    /**
     * How far a point lies in front of the filled surface, within the chord or all that the known balls tell. One that
     * says so is {@link #ball}.
     *
     * @param near spots beside it
     */
    double missMm(double x, double y, double z, Spot... near) {
        starts.clear();
        gather(x, y, z, near);
        double best = Double.POSITIVE_INFINITY;
        for (int start = nearest(); start >= 0 && away(start) < best; start = nearest()) {
            best = Math.min(best, approachFrom(start));
            if (Math.abs(rolling.radiusMm() - best) <= rolling.chordMm()) {
                break;
            }
        }
        return rolling.radiusMm() - best;
    }

    /** Adds centres to start from: those of spots beside the point, and the nearest that is known. */
    private void gather(double x, double y, double z, Spot... near) {
        px = x;
        py = y;
        pz = z;
        for (Spot spot : near) {
            start(spot);
        }
        int known = centres.nearest(x, y, z, nearest);
        for (int k = 0; k < 3 && known >= 0; k++) {
            starts.add(centres.at(known, k));
        }
    }

    private void start(Spot spot) {
        starts.add(spot.centreX, spot.centreY);
        starts.add(spot.centreZ);
    }

    /** The start that is nearest to the point; -1 if none is left. One farther than another's end need not be tried. */
    private int nearest() {
        int best = -1;
        for (int i = 0; i < starts.size(); i += 3) {
            best = best < 0 || away(i) < away(best) ? i : best;
        }
        return best;
    }

    private double away(int start) {
        return Vector3d.distance(px, py, pz, starts.get(start), starts.get(start + 1), starts.get(start + 2));
    }

    /** Uses a start up. */
    private double approachFrom(int start) {
        double away = ball.approach(px, py, pz, starts.get(start), starts.get(start + 1), starts.get(start + 2));
        starts.removeRange(start, start + 3);
        return away;
    }
}
