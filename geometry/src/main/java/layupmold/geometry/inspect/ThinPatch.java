package layupmold.geometry.inspect;

import com.carrotsearch.hppc.IntArrayDeque;
import com.carrotsearch.hppc.IntHashSet;
import org.joml.Vector3d;

/** How much of the surface around a thin place is thin, triangle by triangle at their middles. For one thread. */
final class ThinPatch {

    private final MeasuredSolid solid;
    private final double limitMm;
    private final ThicknessProbe probe;

    ThinPatch(MeasuredSolid solid, double limitMm, double capMm) {
        this.solid = solid;
        this.limitMm = limitMm;
        this.probe = new ThicknessProbe(solid, capMm);
    }

    /**
     * Area of thin triangles and of those joined to them by sides, mm².
     *
     * @param mostMm2 looks no further once there is as much; it is the answer then
     */
    double areaMm2(int[] thin, double mostMm2) {
        IntHashSet seen = new IntHashSet();
        IntArrayDeque next = new IntArrayDeque();
        for (int t : thin) {
            if (seen.add(t)) {
                next.addLast(t);
            }
        }
        double area = 0;
        while (!next.isEmpty() && area < mostMm2) {
            int t = next.removeFirst();
            area += solid.areas()[t];
            for (int h = 3 * t; h < 3 * t + 3; h++) {
                int twin = solid.topology().twin(h);
                if (twin >= 0 && seen.add(twin / 3) && isThin(twin / 3)) {
                    next.addLast(twin / 3);
                }
            }
        }
        return Math.min(area, mostMm2);
    }

    private boolean isThin(int t) {
        Vector3d middle = solid.mesh().centroid(t);
        return solid.hasReliableNormal(t) && probe.measure(middle.x, middle.y, middle.z, t).ballMm < limitMm;
    }
}
