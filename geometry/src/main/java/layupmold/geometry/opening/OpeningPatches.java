package layupmold.geometry.opening;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.mark.TrimMark;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;

/** The patches of one opening, one for each simple loop in it, not yet joined to the face. */
final class OpeningPatches {

    /**
     * @param loop the simple loop
     * @param mesh its patch; the loop's corners are the first vertices
     * @param shape how it was shaped
     * @param ring loops of the trim ring in vertices of {@code mesh}, or null
     * @param profile depth in the ring's groove by vertex, 0 to 1, or null without a ring
     */
    record Part(OpeningLoop loop, TriangleMesh mesh, CapShape shape, TrimRing ring, double[] profile) {
    }

    /** Where a whole mark does not fit, a narrower may. Less than half does not print: common practice, no source. */
    private static final double[] MARK_SHARES = {1, 0.75, 0.5};

    private final List<Part> parts = new ArrayList<>();
    private final List<Finding> findings = new ArrayList<>();

    private OpeningPatches() {
    }

    /**
     * Shapes the patches of one opening.
     *
     * @param best no better shape than this is tried
     * @throws Rejection if a loop cannot be closed
     */
    static OpeningPatches of(TriangleMesh face, EdgeTopology topology, int[] halfEdges, CapShape best,
            TrimMark mark) {
        OpeningPatches patches = new OpeningPatches();
        for (int[] simple : simpleLoops(topology, halfEdges)) {
            OpeningLoop loop = OpeningLoop.of(face, topology, simple);
            PatchShaping.Shaped shaped = PatchShaping.shape(face, loop, best);
            if (shaped == null) {
                throw new Rejection(Finding.error(OpeningCapper.STAGE, "opening-cannot-be-capped",
                                "No cap over this opening stays clear of itself and of the face.")
                        .at(loop.place()).measured(loop.perimeter(), null, "mm")
                        .advising("Close the opening in the part, or smooth its edge."));
            }
            patches.add(face, loop, shaped, mark);
        }
        return patches;
    }

    List<Part> parts() {
        return parts;
    }

    List<Finding> findings() {
        return findings;
    }

    private void add(TriangleMesh face, OpeningLoop loop, PatchShaping.Shaped shaped, TrimMark mark) {
        if (shaped.shape() != shaped.wanted()) {
            findings.add(Finding.warning(OpeningCapper.STAGE, "cap-plainer-than-wanted",
                            "The cap over this opening is " + describe(shaped.shape()) + ": one that is "
                                    + describe(shaped.wanted()) + " would have crossed the face or itself.")
                    .at(loop.place()).advising("Look at the cap in the mold before printing."));
        }
        TrimRingCut.Result cut = mark.widthMm() > 0 ? widestMark(face, loop, shaped.patch(), mark) : null;
        parts.add(cut == null
                ? new Part(loop, shaped.patch().toMesh(), shaped.shape(), null, null)
                : new Part(loop, cut.mesh(), shaped.shape(), cut.ring(), cut.profile()));
    }

    /** What fits of the mark; null if nothing does. */
    private TrimRingCut.Result widestMark(TriangleMesh face, OpeningLoop loop, PatchMesh patch, TrimMark mark) {
        for (double share : MARK_SHARES) {
            TrimRingCut.Result cut = TrimRingCut.cut(patch, face, loop, mark, share);
            if (cut != null) {
                if (share < 1) {
                    findings.add(Finding.info(OpeningCapper.STAGE, "trim-mark-narrowed",
                                    "The opening is tight: its trim mark is narrower and shallower than asked.")
                            .at(loop.place()).measured(share, 1.0, "1"));
                }
                return cut;
            }
        }
        findings.add(Finding.warning(OpeningCapper.STAGE, "trim-mark-does-not-fit",
                        "The opening is too small, narrow or creased for a trim mark around it.")
                .at(loop.place()).measured(loop.perimeter(), null, "mm")
                .advising("Mark this edge on the laminate by hand, or use a narrower mark."));
        return null;
    }

    private static String describe(CapShape shape) {
        return switch (shape) {
            case PLANAR -> "flat";
            case TANGENT -> "tangent to the face";
            case MEMBRANE -> "smooth but meets the face at an angle";
            case FACETED -> "faceted";
        };
    }

    /** Splits a loop where it comes back to a vertex; O(n). Loops of two edges enclose nothing and vanish. */
    private static List<int[]> simpleLoops(EdgeTopology topology, int[] halfEdges) {
        List<int[]> loops = new ArrayList<>();
        int[] path = new int[halfEdges.length];
        Map<Integer, Integer> at = new HashMap<>();
        int size = 0;
        for (int h : halfEdges) {
            at.put(topology.from(h), size);
            path[size++] = h;
            Integer start = at.get(topology.to(h));
            if (start != null) {
                if (size - start > 2) {
                    loops.add(Arrays.copyOfRange(path, start, size));
                }
                for (int i = start; i < size; i++) {
                    at.remove(topology.from(path[i]));
                }
                size = start;
            }
        }
        return loops;
    }
}
