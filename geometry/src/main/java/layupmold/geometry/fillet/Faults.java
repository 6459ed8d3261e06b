package layupmold.geometry.fillet;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import layupmold.geometry.finding.Place;
import org.joml.Vector3d;

/** Places that are left unfilled, and around which the filling runs out. */
final class Faults {

    /** Reaches around a place at which the filling is complete. */
    private static final double COMPLETE = 2;

    /** @param reachMm radius of what stays as it is */
    private record Fault(double x, double y, double z, double reachMm) {

        double away(double px, double py, double pz) {
            return Vector3d.distance(x, y, z, px, py, pz);
        }
    }

    private final List<Fault> all = new ArrayList<>();

    /** Adds a place, unless one of that reach is close by. */
    void add(double x, double y, double z, double reachMm) {
        if (all.stream().noneMatch(f -> f.reachMm >= reachMm && f.away(x, y, z) < reachMm / 2)) {
            all.add(new Fault(x, y, z, reachMm));
        }
    }

    /** How much of the filling is made at a point: 0 to 1, smooth. */
    double shareAt(double x, double y, double z) {
        double share = 1;
        for (Fault f : all) {
            double t = Math.max(0, Math.min(1, (f.away(x, y, z) / f.reachMm - 1) / (COMPLETE - 1)));
            share = Math.min(share, t * t * (3 - 2 * t));
        }
        return share;
    }

    /** The places, the largest first; those that run far into a larger one belong to it. */
    List<LeftPlace> places() {
        List<Fault> apart = new ArrayList<>();
        all.stream().sorted(Comparator.comparingDouble(f -> -f.reachMm)).forEach(f -> {
            for (int i = 0; i < apart.size(); i++) {
                Fault g = apart.get(i);
                double away = g.away(f.x, f.y, f.z);
                if (away < COMPLETE * g.reachMm) {
                    apart.set(i, new Fault(g.x, g.y, g.z, Math.max(g.reachMm, away / COMPLETE + f.reachMm)));
                    return;
                }
            }
            apart.add(f);
        });
        return apart.stream().map(f -> new LeftPlace(Place.at(f.x, f.y, f.z), COMPLETE * f.reachMm)).toList();
    }
}
