package layupmold.geometry.face;

import java.util.List;
import java.util.Optional;
import layupmold.geometry.finding.Finding;
import org.joml.Vector3d;

/**
 * A shell's face whose border does not zigzag.
 *
 * @param finding where the border had to be moved for it, and how far
 */
record EvenedFace(FaceMesh face, Optional<Finding> finding) {

    /** How far a border's corner may lie beside its neighbours' line to be left out between short edges. */
    private static final double STRAIGHT_MM = 0.002;
    /** The same where the border was evened out, in wall thicknesses. */
    private static final double EVENED_STRAIGHT = 0.01;
    /** Borders longer than the shortest by more than this share still zigzag. */
    private static final double LONGER = 0.02;

    /** @param pull unit vector */
    static EvenedFace of(FaceMesh kept, double thicknessMm, Vector3d pull) {
        FaceMesh face = BorderFlaps.without(kept, thicknessMm, pull);
        double[] xyz = FairBorder.of(face, thicknessMm);
        if (xyz == null) {
            return asIs(face);
        }
        return new EvenedFace(ShortBorderEdges.without(face.at(xyz), EVENED_STRAIGHT * thicknessMm),
                Optional.of(FaceFindings.borderEvened(face, xyz)));
    }

    /** A face whose wall's thickness is not known: nothing tells noise from shape. */
    static EvenedFace asIs(FaceMesh kept) {
        return new EvenedFace(ShortBorderEdges.without(kept, STRAIGHT_MM), Optional.empty());
    }

    /** The first whose border is about as short as that of any. */
    static EvenedFace best(List<EvenedFace> ways) {
        double shortest = ways.stream().mapToDouble(EvenedFace::borderMm).min().orElseThrow();
        return ways.stream().filter(way -> way.borderMm() <= (1 + LONGER) * shortest).findFirst().orElseThrow();
    }

    private double borderMm() {
        return face.topology().boundaryLoops().stream()
                .mapToDouble(loop -> FaceLoops.length(face.mesh(), face.topology(), loop)).sum();
    }
}
