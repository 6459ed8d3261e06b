package layupmold.geometry.inspect;

import java.util.Locale;
import layupmold.geometry.recipe.Tool;
import org.joml.Vector3d;

/**
 * An upright plane along which to split the mold so that its halves leave the part sideways.
 *
 * @param normalDeg direction of the plane's normal in plan, degrees from the mold frame's x axis, 0 to 180
 * @param through a point of the plane, mold frame, mm
 * @param freedShare share of the undercut area that this frees, 0 to 1
 * @param words what to do, for people
 */
public record SplitAdvice(double normalDeg, Vector3d through, double freedShare, String words) {

    private static final int AZIMUTHS = 36;
    private static final int PLACES = 9;
    /** Sine of 1°: a surface along which a half slides counts as freed. */
    private static final double SLIDING = -0.0175;

    /**
     * Tries {@value #AZIMUTHS} directions by {@value #PLACES} places over the middle of the undercut's extent. A half
     * of a cavity moves away from the plane, a half of a plug towards it (after a core wedge is out): undercut is
     * freed where its surface does not face against that.
     */
    static SplitAdvice find(Undercut undercut, Tool tool) {
        double bestFreed = -1;
        double bestAngle = 0;
        double bestPlace = 0;
        for (int i = 0; i < AZIMUTHS; i++) {
            double angle = Math.PI * i / AZIMUTHS;
            double ex = Math.cos(angle);
            double ey = Math.sin(angle);
            double[] extent = extent(undercut, ex, ey);
            for (int k = 0; k < PLACES; k++) {
                // From the middle outwards, so that of equals the most even split wins.
                double share = 0.5 + (k % 2 == 0 ? 0.1 : -0.1) * ((k + 1) / 2);
                double place = extent[0] + share * (extent[1] - extent[0]);
                double freed = freed(undercut, tool, ex, ey, place);
                if (freed > bestFreed * (1 + 1e-9)) {
                    bestFreed = freed;
                    bestAngle = angle;
                    bestPlace = place;
                }
            }
        }
        double total = undercut.area(Undercut.FACES_AWAY) + undercut.area(Undercut.SHADOWED);
        return advice(tool, bestAngle, through(undercut, bestAngle, bestPlace), bestFreed / total);
    }

    private static double[] extent(Undercut undercut, double ex, double ey) {
        SurfaceSamples samples = undercut.samples;
        double least = Double.POSITIVE_INFINITY;
        double most = Double.NEGATIVE_INFINITY;
        for (int s = 0; s < samples.count(); s++) {
            if (undercut.state[s] != 0) {
                double d = ex * samples.xyz[3 * s] + ey * samples.xyz[3 * s + 1];
                least = Math.min(least, d);
                most = Math.max(most, d);
            }
        }
        return new double[] {least, most};
    }

    private static double freed(Undercut undercut, Tool tool, double ex, double ey, double place) {
        SurfaceSamples samples = undercut.samples;
        double[] normals = undercut.solid.normals();
        double sum = 0;
        for (int s = 0; s < samples.count(); s++) {
            if (undercut.state[s] == 0) {
                continue;
            }
            boolean beyond = ex * samples.xyz[3 * s] + ey * samples.xyz[3 * s + 1] >= place;
            // The part leaves a cavity's half against the half's own motion: its wall must face the plane.
            double motion = beyond == (tool == Tool.FEMALE) ? -1 : 1;
            int n = 3 * samples.triangle[s];
            sum += motion * (ex * normals[n] + ey * normals[n + 1]) >= SLIDING ? samples.weight[s] : 0;
        }
        return sum;
    }

    private static Vector3d through(Undercut undercut, double angle, double place) {
        double ex = Math.cos(angle);
        double ey = Math.sin(angle);
        double[] across = extent(undercut, -ey, ex);
        double middle = (across[0] + across[1]) / 2;
        return new Vector3d(place * ex - middle * ey, place * ey + middle * ex, 0);
    }

    private static SplitAdvice advice(Tool tool, double angle, Vector3d through, double share) {
        double degrees = Math.toDegrees(angle);
        String how = tool == Tool.FEMALE
                ? "bolt the halves together for laminating and draw them apart sideways"
                : "make the plug of two halves around a wedge, take the wedge out first and move the halves inward";
        String words = String.format(Locale.ROOT,
                "Split the mold along the upright plane through x = %.0f mm, y = %.0f mm whose normal lies at %.0f° "
                        + "from the x axis; %s. This frees %.0f %% of the undercut area%s",
                through.x, through.y, degrees, how, 100 * share,
                share > 0.99 ? "." : "; make the rest a loose piece that leaves with the part, or fill it.");
        return new SplitAdvice(degrees, through, share, words);
    }
}
