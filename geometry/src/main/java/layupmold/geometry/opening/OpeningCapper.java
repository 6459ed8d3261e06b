package layupmold.geometry.opening;

import java.util.Arrays;
import java.util.List;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.mark.TrimMark;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.parallel.Parallel;

/**
 * Pipeline stage {@code opening}: closes every loop of the face but its perimeter.
 *
 * <p>A flat loop whose surroundings lie flush with its plane, or stand steeply on it, gets a flat cap; any other a
 * minimum-area triangulation, refined to the density around it and faired to be tangent to the face (Liepa 2003). Each
 * patch is checked against itself and the face, exactly; where the wanted shape fails, a plainer one is taken and said.
 * Caps are made in parallel, each on its own; the result does not depend on the number of threads.
 */
public final class OpeningCapper {

    static final String STAGE = "opening";

    private final Collars face;
    private final List<int[]> openingLoops;
    private final TrimMark[] trimMarks;

    private OpeningCapper(Collars face, List<int[]> openingLoops, TrimMark[] trimMarks) {
        this.face = face;
        this.openingLoops = openingLoops;
        this.trimMarks = trimMarks;
    }

    /**
     * @param face the kept surface, mm, pull along +z
     * @param topology its edges
     * @param openingLoops boundary half-edges of each opening, in order, face on the left
     * @param perimeterLoop boundary half-edges of the perimeter
     * @param trimMarks of each opening, their depths signed: positive along the face's normals; {@link TrimMark#NONE}
     *     for none
     * @throws Rejection if an opening cannot be closed without crossing itself or the face, or two caps cross
     */
    public static CappedFace cap(TriangleMesh face, EdgeTopology topology, List<int[]> openingLoops,
            int[] perimeterLoop, TrimMark[] trimMarks) {
        return cap(face, topology, openingLoops, perimeterLoop, trimMarks,
                CollarSpec.none(openingLoops.size()));
    }

    /**
     * The same with collars around openings whose edges turn away from the tool: there the patch is held off the edge,
     * so that the edge keeps its place when it is offset.
     */
    public static CappedFace cap(TriangleMesh face, EdgeTopology topology, List<int[]> openingLoops,
            int[] perimeterLoop, TrimMark[] trimMarks, CollarSpec collars) {
        Collars collared = Collars.grow(face, topology, openingLoops, collars);
        return new OpeningCapper(collared, openingLoops, trimMarks).run(perimeterLoop);
    }

    /** The same without marks. */
    public static CappedFace cap(
            TriangleMesh face, EdgeTopology topology, List<int[]> openingLoops, int[] perimeterLoop) {
        TrimMark[] marks = new TrimMark[openingLoops.size()];
        Arrays.fill(marks, TrimMark.NONE);
        return cap(face, topology, openingLoops, perimeterLoop, marks);
    }

    private CappedFace run(int[] perimeterLoop) {
        OpeningPatches[] patches = new OpeningPatches[openingLoops.size()];
        CapShape[] best = new CapShape[patches.length];
        Arrays.fill(best, CapShape.PLANAR);
        CappedFace capped = shapeAll(perimeterLoop, best, patches);
        int[] crossing = CapCrossings.find(capped);
        if (crossing.length == 0) {
            return capped;
        }
        for (int i : crossing) {
            best[i] = CapShape.MEMBRANE;
            patches[i] = null;
        }
        capped = shapeAll(perimeterLoop, best, patches);
        int[] still = CapCrossings.find(capped);
        if (still.length > 0) {
            throw new Rejection(Finding.error(STAGE, "caps-cross", "The caps of two openings cross each other.")
                    .at(patches[still[0]].parts().get(0).loop().place())
                    .advising("Close one of the two openings in the part, or move them apart."));
        }
        return capped;
    }

    /** Makes the patches that are missing and joins all to the face. */
    private CappedFace shapeAll(int[] perimeterLoop, CapShape[] best, OpeningPatches[] patches) {
        Rejection[] refused = new Rejection[patches.length];
        Parallel.forRanges(patches.length, 1, (chunk, from, to) -> {
            for (int i = from; i < to; i++) {
                if (patches[i] == null) {
                    try {
                        patches[i] = OpeningPatches.of(
                                face.mesh(), face.topology(), face.loops().get(i), best[i], trimMarks[i]);
                    } catch (Rejection e) {
                        refused[i] = e;
                    }
                }
            }
        });
        for (Rejection e : refused) {
            if (e != null) {
                throw e;
            }
        }
        return CapAssembly.assemble(face, perimeterLoop, openingLoops, List.of(patches));
    }
}
