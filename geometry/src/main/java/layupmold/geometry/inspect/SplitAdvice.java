package layupmold.geometry.inspect;

import java.util.Locale;
import java.util.stream.IntStream;
import layupmold.geometry.congruence.Isometry;
import layupmold.geometry.finding.Place;
import layupmold.geometry.parallel.Parallel;
import layupmold.geometry.recipe.Tool;
import org.joml.Vector3d;

/**
 * An upright plane along which to split the mold so that its halves leave the part sideways.
 *
 * @param normal unit normal of the plane
 * @param through a point of the plane, mm
 * @param freedShare share of the undercut area that this frees, 0 to 1
 * @param words what to do, for people; the plane itself is not in it
 */
public record SplitAdvice(Vector3d normal, Place through, double freedShare, String words) {

    private static final int AZIMUTHS = 36;
    private static final int PLACES = 9;
    private static final double FIRST_SHARE = 0.1;
    private static final double STEP_SHARE = 0.1;
    /** Sine of 1°: a surface along which a half slides counts as freed. */
    private static final double SLIDING = -0.0175;

    /** The same in another frame. */
    SplitAdvice in(Isometry frame) {
        return new SplitAdvice(frame.applyToDirection(normal), frame.apply(through), freedShare, words);
    }

    /**
     * Tries {@value #AZIMUTHS} directions by {@value #PLACES} places over the middle of the undercut's extent. A half
     * of a cavity moves away from the plane, a half of a plug towards it (after a core wedge is out): undercut is
     * freed where its surface does not face against that.
     */
    static SplitAdvice find(Undercut undercut, Tool tool) {
        int[] held = IntStream.range(0, undercut.samples.count()).filter(s -> undercut.state[s] != 0).toArray();
        Split[] best = new Split[AZIMUTHS];
        Parallel.forRanges(AZIMUTHS, 1,
                (chunk, from, to) -> best[from] = best(undercut, held, tool, Math.PI * from / AZIMUTHS));
        Split most = best[0];
        for (Split split : best) {
            most = split.freed > most.freed * (1 + 1e-9) ? split : most;
        }
        double total = undercut.area(Undercut.FACES_AWAY) + undercut.area(Undercut.SHADOWED);
        return advice(tool, most.angle, through(undercut, held, most), most.freed / total);
    }

    /** @param place distance of the plane from the origin along its normal */
    private record Split(double angle, double place, double freed) {
    }

    /** The best of the places at one azimuth: of equals the most even split. */
    private static Split best(Undercut undercut, int[] held, Tool tool, double angle) {
        double ex = Math.cos(angle);
        double ey = Math.sin(angle);
        double[] extent = extent(undercut, held, ex, ey);
        double from = extent[0] + FIRST_SHARE * (extent[1] - extent[0]);
        double step = Math.max(STEP_SHARE * (extent[1] - extent[0]), 1e-9);
        // Freed area by how many of the places a sample lies beyond, were its half the near or the far one.
        double[] near = new double[PLACES + 1];
        double[] far = new double[PLACES + 1];
        double[] xyz = undercut.samples.xyz;
        double[] normals = undercut.solid.normals();
        double motion = tool == Tool.FEMALE ? -1 : 1;
        for (int s : held) {
            int n = 3 * undercut.samples.triangle[s];
            double across = motion * (ex * normals[n] + ey * normals[n + 1]);
            int beyond = (int) Math.floor((ex * xyz[3 * s] + ey * xyz[3 * s + 1] - from) / step) + 1;
            int place = Math.max(0, Math.min(PLACES, beyond));
            far[place] += across >= SLIDING ? undercut.samples.weight[s] : 0;
            near[place] += -across >= SLIDING ? undercut.samples.weight[s] : 0;
        }
        Split best = new Split(angle, 0, -1);
        for (int k = 0; k < PLACES; k++) {
            int place = PLACES / 2 + (k % 2 == 0 ? 1 : -1) * ((k + 1) / 2);
            double freed = 0;
            for (int i = 0; i <= PLACES; i++) {
                freed += i > place ? far[i] : near[i];
            }
            if (freed > best.freed * (1 + 1e-9)) {
                best = new Split(angle, from + place * step, freed);
            }
        }
        return best;
    }

    private static double[] extent(Undercut undercut, int[] held, double ex, double ey) {
        double least = Double.POSITIVE_INFINITY;
        double most = Double.NEGATIVE_INFINITY;
        for (int s : held) {
            double d = ex * undercut.samples.xyz[3 * s] + ey * undercut.samples.xyz[3 * s + 1];
            least = Math.min(least, d);
            most = Math.max(most, d);
        }
        return new double[] {least, most};
    }

    private static Vector3d through(Undercut undercut, int[] held, Split split) {
        double ex = Math.cos(split.angle);
        double ey = Math.sin(split.angle);
        double[] across = extent(undercut, held, -ey, ex);
        double middle = (across[0] + across[1]) / 2;
        return new Vector3d(split.place * ex - middle * ey, split.place * ey + middle * ex, 0);
    }

    private static SplitAdvice advice(Tool tool, double angle, Vector3d through, double share) {
        String how = tool == Tool.FEMALE
                ? "bolt the halves together for laminating and draw them apart sideways"
                : "make the plug of two halves around a wedge, take the wedge out first and move the halves inward";
        String words = String.format(Locale.ROOT, "Split the mold along an upright plane, given in this report; %s. "
                + "This frees %.0f %% of the undercut area%s", how, 100 * share,
                share > 0.99 ? "." : "; make the rest a loose piece that leaves with the part, or fill it.");
        return new SplitAdvice(new Vector3d(Math.cos(angle), Math.sin(angle), 0),
                Place.at(through), share, words);
    }
}
