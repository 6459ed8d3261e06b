package layupmold.geometry.fillet;

import com.carrotsearch.hppc.IntObjectHashMap;
import com.carrotsearch.hppc.cursors.ObjectCursor;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import layupmold.geometry.finding.Place;
import layupmold.geometry.mesh.DisjointSets;
import org.joml.Vector3d;

/**
 * Measures a filled sheet: connected fillings, their area and depth on the tool, where flat pieces lie their offset off
 * and corners are mitred. O(n).
 */
final class FilledRegions {

    private static final int MITRE_STEPS = 60;
    private static final double MITRE_LIMIT = 2.5;

    /** A filling while it is summed up. */
    private static final class Sum {
        double area;
        double deepest;
        int at;
    }

    private final RollingBall rolling;
    private final FilletSheet sheet;
    private final double behindMm;
    private final DisjointSets fillings;

    private FilledRegions(RollingBall rolling, FilletSheet sheet, double behindMm) {
        this.rolling = rolling;
        this.sheet = sheet;
        this.behindMm = behindMm;
        this.fillings = new DisjointSets(sheet.vertexCount());
    }

    /** @param behindMm how far the tool surface lies behind the sheet */
    static List<FilledPlace> measure(RollingBall rolling, FilletSheet sheet, double behindMm) {
        return new FilledRegions(rolling, sheet, behindMm).measure();
    }

    private List<FilledPlace> measure() {
        for (int t = 0; t < sheet.triangleCount(); t++) {
            for (int k = 0; k < 3; k++) {
                int a = sheet.triangles.get(3 * t + k);
                int b = sheet.triangles.get(3 * t + (k + 1) % 3);
                if (sheet.isFilled(a) && sheet.isFilled(b)) {
                    fillings.join(a, b);
                }
            }
        }
        IntObjectHashMap<Sum> sums = new IntObjectHashMap<>();
        for (int v = 0; v < sheet.vertexCount(); v++) {
            if (sheet.isFilled(v)) {
                Sum sum = sums.get(fillings.find(v));
                if (sum == null) {
                    sum = new Sum();
                    sums.put(fillings.find(v), sum);
                }
                double depth = depthMm(v);
                if (depth > sum.deepest) {
                    sum.deepest = depth;
                    sum.at = v;
                }
            }
        }
        addAreas(sums);
        List<Sum> all = new ArrayList<>();
        for (ObjectCursor<Sum> cursor : sums.values()) {
            all.add(cursor.value);
        }
        all.sort(Comparator.comparingDouble((Sum sum) -> -sum.deepest).thenComparingInt(sum -> sum.at));
        return all.stream().filter(sum -> sum.deepest > 0).map(sum -> new FilledPlace(Place.at(sheet.ground(sum.at, 0),
                sheet.ground(sum.at, 1), sheet.ground(sum.at, 2)), sum.area, sum.deepest)).toList();
    }

    private void addAreas(IntObjectHashMap<Sum> sums) {
        for (int t = 0; t < sheet.triangleCount(); t++) {
            int filled = -1;
            for (int k = 0; k < 3; k++) {
                int v = sheet.triangles.get(3 * t + k);
                filled = sheet.isFilled(v) ? v : filled;
            }
            if (filled >= 0) {
                Vector3d a = onTool(sheet.triangles.get(3 * t));
                Vector3d b = onTool(sheet.triangles.get(3 * t + 1)).sub(a);
                Vector3d c = onTool(sheet.triangles.get(3 * t + 2)).sub(a);
                sums.get(fillings.find(filled)).area += b.cross(c).length() / 2;
            }
        }
    }

    /** How far the filled tool surface is from where it would be at a vertex; 0 beside such a vertex. */
    private double depthMm(int v) {
        Spot spot = sheet.spots.get(v);
        if (spot.isBetween) {
            return 0;
        }
        double away = onTool(v).distance(spot.centreX, spot.centreY, spot.centreZ);
        return spot.share * Math.max(0, away - rolling.radiusMm() - behindMm);
    }

    /** Where the unfilled tool surface has a vertex: moved back off all its triangles, mitred. */
    private Vector3d onTool(int v) {
        Vector3d mitre = new Vector3d();
        int[] sources = sheet.sources(v);
        double[] n = rolling.normals();
        for (int step = 0; step < MITRE_STEPS && behindMm != 0; step++) {
            int worst = -1;
            double most = 1e-9;
            for (int t : sources) {
                double missing = 1 - mitre.dot(n[3 * t], n[3 * t + 1], n[3 * t + 2]);
                if (missing > most && n[3 * t] * n[3 * t] + n[3 * t + 1] * n[3 * t + 1] + n[3 * t + 2] * n[3 * t + 2] > 0) {
                    most = missing;
                    worst = t;
                }
            }
            if (worst < 0) {
                break;
            }
            mitre.add(most * n[3 * worst], most * n[3 * worst + 1], most * n[3 * worst + 2]);
        }
        double length = mitre.length();
        double scale = length > MITRE_LIMIT ? MITRE_LIMIT / length : 1;
        return new Vector3d(sheet.ground(v, 0), sheet.ground(v, 1), sheet.ground(v, 2)).fma(-scale * behindMm, mitre);
    }
}
