package layupmold.geometry.simplify;

import com.carrotsearch.hppc.IntArrayList;
import java.util.BitSet;
import java.util.stream.IntStream;

/** Takes vertices out where their triangles are nearer to the target without them. */
final class SideCollapses {

    private final FittedMesh fitted;
    private final HalfEdgeMesh mesh;
    private final TargetProbe probe;
    private final CollapseGuard guard;
    private final int givenVertices;
    private final BitSet splitInVain = new BitSet();
    private final HalfEdgeMesh.Fan fan = new HalfEdgeMesh.Fan();

    SideCollapses(FittedMesh fitted) {
        this.fitted = fitted;
        this.mesh = fitted.mesh();
        this.probe = fitted.probe();
        this.guard = new CollapseGuard(mesh, 0);
        this.givenVertices = mesh.vertexCount();
    }

    /** Whether a triangle lost a vertex that a split had given it: more splits would go round in circles. */
    boolean wasSplitInVain(int t) {
        return splitInVain.get(t);
    }

    /**
     * Takes out the side of triangle {@code t}, one end of which is loose, that leaves the least miss.
     *
     * @param cosine least, between a new triangle's normal and its target's front
     * @return the triangles that are changed
     */
    int[] collapse(int t, double cosine) {
        int best = -1;
        double least = Double.POSITIVE_INFINITY;
        for (int side = 3 * t; side < 3 * t + 3; side++) {
            for (int h : new int[] {side, mesh.twin(side)}) {
                double left = h >= 0 && fitted.loose().get(mesh.from(h)) ? missAfter(h, cosine) : Double.POSITIVE_INFINITY;
                if (left < least) {
                    least = left;
                    best = h;
                }
            }
        }
        if (best < 0) {
            return FittedMesh.NOTHING;
        }
        mesh.fan(mesh.from(best), fan);
        int[] around = fan.triangles();
        boolean isBySplit = mesh.from(best) >= givenVertices;
        mesh.collapse(best, fan);
        int[] left = IntStream.of(around).filter(u -> !mesh.isRemoved(u)).toArray();
        for (int u : left) {
            splitInVain.set(u, isBySplit || splitInVain.get(u));
        }
        return fitted.changed(left);
    }

    /** Infinite if that gains nothing, turns a triangle away from the target or makes it meet another. */
    private double missAfter(int h, double cosine) {
        mesh.fan(mesh.from(h), fan);
        if (fan.onBoundary || !guard.keepsTopology(h, fan)) {
            return Double.POSITIVE_INFINITY;
        }
        int[] around = fan.triangles();
        for (int t : around) {
            if (fitted.labels().get(t) != fitted.labels().get(h / 3)) {
                return Double.POSITIVE_INFINITY;
            }
        }
        int[] corners = collapsed(mesh.to(h));
        double after = fitted.miss(corners, i -> h / 3, fitted.budget(around));
        for (int i = 0; i < corners.length && after < Double.POSITIVE_INFINITY; i += 3) {
            after = probe.facesTarget(corners, i, cosine) ? after : Double.POSITIVE_INFINITY;
        }
        return after < Double.POSITIVE_INFINITY && fitted.crossings().isFree(corners, around) ? after
                : Double.POSITIVE_INFINITY;
    }

    /** Corners of the fan's triangles that stay, drawn to {@code v}. */
    private int[] collapsed(int v) {
        IntArrayList parts = new IntArrayList();
        for (int i = 0; i < fan.size; i++) {
            int b = mesh.to(fan.halfEdges[i]);
            int c = mesh.apex(fan.halfEdges[i]);
            if (b != v && c != v) {
                parts.add(v, b);
                parts.add(c);
            }
        }
        return parts.toArray();
    }
}
