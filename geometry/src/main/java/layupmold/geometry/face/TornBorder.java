package layupmold.geometry.face;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Trims an open sheet whose border is torn from triangle to triangle, as scans are and what is cut out of them, to an
 * even line inside: where the distance from the border, evened out over the sheet ({@link SurfaceHeat}), is that of the
 * deepest notches.
 */
public final class TornBorder {

    /** Of a loop's mean edge: what sets the size of what is no shape but noise. */
    private static final double SCALE = 3;
    /** Width of the bell curve that the distance is evened out by, in scales. */
    private static final double WIDTH = 0.75;
    /** How far from the border the sheet is looked at, in scales. */
    private static final double REACH = 5;
    /** Share of the border's corners that are no deeper than the line; deeper ones are notches that are meant. */
    private static final double NOTCHES = 0.98;

    /** How far a border's corner may lie beside its neighbours' line to be left out between short edges, in scales. */
    private static final double STRAIGHT = 0.01;

    private final FaceResult face;
    private final TriangleMesh mesh;
    private final EdgeTopology topology;
    private final BorderReach reach;
    private final List<Integer> border = new ArrayList<>();
    private double scaleMm;

    private TornBorder(FaceResult face) {
        this.face = face;
        this.mesh = face.mesh();
        this.topology = face.topology();
        this.reach = new BorderReach(mesh);
    }

    /** The face within even borders; empty if it is no sheet or none of its borders is torn all around. O(n). */
    public static Optional<FaceResult> trimmed(FaceResult face) {
        if (face.kind() != PartKind.OPEN_SHEET) {
            return Optional.empty();
        }
        TornBorder torn = new TornBorder(face);
        torn.begin();
        return torn.border.isEmpty() ? Optional.empty() : Optional.of(torn.trim());
    }

    private void begin() {
        FaceMesh whole = new FaceMesh(mesh, topology, face.sourceTriangle());
        for (int[] loop : topology.boundaryLoops()) {
            double[] length = Zigzags.lengths(whole, loop);
            double scale = SCALE * Arrays.stream(length).sum() / loop.length;
            if (Zigzags.isAllAround(whole, loop, length, scale)) {
                scaleMm = Math.max(scaleMm, scale);
                for (int h : loop) {
                    reach.start(topology.from(h), loop[0] == face.perimeter()[0]);
                    border.add(topology.from(h));
                }
            }
        }
    }

    private FaceResult trim() {
        reach.spread(topology, REACH * scaleMm);
        FaceMesh near = FaceMesh.compact(mesh, reach.triangles());
        double[] depth = evenDepth(near);
        float[] field = new float[mesh.vertexCount()];
        Arrays.fill(field, Float.NaN);
        for (int i = 0; i < near.mesh().triangles().length; i++) {
            field[mesh.triangles()[3 * near.source()[i / 3] + i % 3]] = (float) -depth[near.mesh().triangles()[i]];
        }
        double[] deep = border.stream().mapToDouble(v -> -field[v]).sorted().toArray();
        float level = (float) deep[(int) (NOTCHES * (deep.length - 1))];
        for (int v = 0; v < field.length; v++) {
            field[v] += level;
        }
        boolean[] kept = new boolean[mesh.triangleCount()];
        Arrays.fill(kept, true);
        return largest(SurfaceSplit.of(mesh, topology, kept, RimField.known(topology, field), field));
    }

    private double[] evenDepth(FaceMesh near) {
        double[] mass = new double[near.mesh().vertexCount()];
        double[] heat = new double[mass.length];
        for (int i = 0; i < near.mesh().triangles().length; i++) {
            double third = near.mesh().areaNormal(i / 3).length() / 6;
            mass[near.mesh().triangles()[i]] += third;
            heat[near.mesh().triangles()[i]] += third * reach.distance(near.source()[i / 3], i % 3);
        }
        return new SurfaceHeat(near.mesh()).spread(WIDTH * scaleMm, mass, heat);
    }

    private FaceResult largest(SurfaceSplit split) {
        double[] areas = split.areas();
        boolean[] main = LabelRegions.mainPiece(EdgeTopology.of(split.mesh()), split.kept(), areas);
        FaceMesh left = FaceMesh.of(split.mesh(), main, areas).within(split.source());
        double[] xyz = FairBorder.of(left, scaleMm);
        FaceMesh even = ShortBorderEdges.without(xyz == null ? left : left.at(xyz), STRAIGHT * scaleMm);
        FaceMesh trimmed = even.within(face.sourceTriangle());
        List<Finding> findings = new ArrayList<>(face.findings());
        findings.add(FaceFindings.borderTrimmed(face, trimmed.mesh()));
        double allMm2 = face.removedAreaMm2() + face.areaMm2();
        return FaceResult.of(trimmed, face.kind(), allMm2, face.thicknessMm(), findings);
    }
}
