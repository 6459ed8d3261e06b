package layupmold.geometry.face;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Supplier;
import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.Keep;
import org.joml.Vector3d;

/**
 * Removes back wall and rim: keeps the one surface that the laminate copies.
 *
 * <p>A shell's walls are told apart by rays (who is seen from the mold's side, who lies behind whom) and a minimum cut;
 * sharp and chamfered rims are cut on their outer crease, rounded ones on a smooth line that divides triangles. A solid
 * loses what looks along the pull and can be seen from there. An open sheet is all face.
 */
public final class FaceExtraction {

    static final String STAGE = "face";
    /** Size of a solid over the scale on which its edges count as rounded. */
    private static final double SOLID_SCALE = 0.05;
    /** How far a border's corner may lie beside its neighbours' line to be left out between short edges. */
    private static final double STRAIGHT_MM = 0.002;
    /** The same where the border was evened out, in wall thicknesses. */
    private static final double EVENED_STRAIGHT = 0.01;

    private final TriangleMesh mesh;
    private final EdgeTopology topology;
    private final Vector3d pull;
    private final TriangleBvh bvh;
    private final EdgeAngles edges;
    private final List<Finding> findings = new ArrayList<>();

    private FaceExtraction(TriangleMesh mesh, EdgeTopology topology, Vector3d pull, TriangleBvh bvh) {
        this.mesh = mesh;
        this.topology = topology;
        this.pull = pull;
        this.bvh = bvh;
        this.edges = EdgeAngles.of(mesh, topology);
    }

    /**
     * Extracts the face of a welded, oriented, connected part; O(n log n).
     *
     * @param pull unit vector along which the cured part leaves the mold
     * @throws Rejection if no face can be told from the rest, or it has no edge
     */
    public static FaceResult extract(TriangleMesh mesh, EdgeTopology topology, Vector3d pull, Keep keep) {
        return extract(mesh, topology, TriangleBvh.of(mesh), pull, keep);
    }

    /** As above with a hierarchy of {@code mesh} that is there already. */
    public static FaceResult extract(
            TriangleMesh mesh, EdgeTopology topology, TriangleBvh bvh, Vector3d pull, Keep keep) {
        return new FaceExtraction(mesh, topology, pull, bvh).run(keep);
    }

    private FaceResult run(Keep keep) {
        Patches patches = Patches.of(mesh, topology, edges);
        WallSurvey survey = WallSurvey.of(mesh, bvh, edges, patches, pull);
        PartKind kind = PartKinds.of(mesh, topology, patches, survey, pull);
        return switch (kind) {
            case OPEN_SHEET -> sheet(keep);
            case SOLID -> solid(patches, keep);
            case CLOSED_SHELL -> shell(patches, survey, keep);
        };
    }

    private FaceResult sheet(Keep keep) {
        double along = 0;
        for (int t = 0; t < mesh.triangleCount(); t++) {
            along += edges.areas()[t] * edges.along(t, pull.x, pull.y, pull.z);
        }
        if (!(keep instanceof Keep.Outer)) {
            findings.add(FaceFindings.oneWallOnly(PartKind.OPEN_SHEET));
        }
        boolean flip = along > 0;
        if (flip) {
            findings.add(FaceFindings.sheetTurned());
        }
        TriangleMesh face = flip ? mesh.flipped() : mesh;
        EdgeTopology faceTopology = flip ? EdgeTopology.of(face) : topology;
        int[] source = new int[mesh.triangleCount()];
        Arrays.setAll(source, t -> t);
        return result(new FaceMesh(face, faceTopology, source), PartKind.OPEN_SHEET, Double.NaN);
    }

    private FaceResult solid(Patches patches, Keep keep) {
        if (!(keep instanceof Keep.Outer)) {
            findings.add(FaceFindings.oneWallOnly(PartKind.SOLID));
        }
        double[] box = mesh.bounds();
        double size = new Vector3d(box[3] - box[0], box[4] - box[1], box[5] - box[2]).length();
        float[] scale = new float[mesh.triangleCount()];
        Arrays.fill(scale, (float) (SOLID_SCALE * size));
        Creases creases = Creases.ofSolid(edges, scale);
        WallLabels labels = WallLabels.ofSolid(topology, creases, patches,
                SolidBack.evidence(mesh, bvh, edges, patches, pull));
        RimBand band = RimBand.ofSolid(mesh, topology, creases, labels.kept());
        return cut(labels, () -> creases.endInWall(topology, LabelRegions.of(topology, labels.kept())),
                RimField.ofSolid(mesh, topology, edges, band, pull), PartKind.SOLID, Double.NaN);
    }

    private FaceResult shell(Patches patches, WallSurvey survey, Keep keep) {
        double typical = survey.medianDepthMm(patches);
        float[] thickness = LocalThickness.of(topology, patches, survey, typical);
        Creases creases = Creases.ofShell(mesh, topology, edges, thickness);
        Segments segments = Segments.of(topology, creases);
        WallLabels labels = WallLabels.ofOuterWall(topology, creases, patches, segments, survey);
        boolean inner = keep instanceof Keep.Seed seed ? !labels.kept()[nearest(seed)] : !(keep instanceof Keep.Outer);
        if (inner) {
            labels = WallLabels.ofInnerWall(
                    topology, creases, patches, segments, survey, labels.mainPiece(topology, edges.areas()));
        }
        if (!inner) {
            Bores.leaveOut(mesh, topology, edges, segments, labels.kept(), typical).ifPresent(findings::add);
        }
        FaceFindings.requireBothWalls(labels, edges.areas());
        FaceFindings.doubtfulWalls(mesh, patches, survey, labels, edges.areas()).ifPresent(findings::add);
        LabelRegions regions = LabelRegions.of(topology, labels.kept());
        RimBand band = RimBand.of(mesh, topology, creases, segments, labels.kept());
        FaceFindings.cutAcrossWall(mesh, topology, creases, labels, regions, band).ifPresent(findings::add);
        return cut(labels, () -> creases.endInWall(topology, regions),
                RimField.of(mesh, topology, creases, band, inner ? null : pull), PartKind.CLOSED_SHELL, typical);
    }

    private int nearest(Keep.Seed seed) {
        NearestPoint answer = new NearestPoint();
        bvh.nearest(seed.x(), seed.y(), seed.z(), Double.MAX_VALUE, answer);
        FaceFindings.seedOff(seed, answer.distance(), mesh).ifPresent(findings::add);
        return answer.triangle;
    }

    private FaceResult cut(WallLabels labels, Supplier<boolean[]> endsInWall, float[] field, PartKind kind,
            double thicknessMm) {
        SurfaceSplit split = SurfaceSplit.of(mesh, topology, labels.kept(), RimField.known(topology, field), field);
        EdgeTopology splitTopology = split.isWhole() ? topology : EdgeTopology.of(split.mesh());
        double[] areas = split.isWhole() ? edges.areas() : split.areas();
        KeptPiece.clean(splitTopology, areas, split, labels, endsInWall).ifPresent(findings::add);
        return result(FaceMesh.of(split.mesh(), split.kept(), areas).within(split.source()), kind, thicknessMm);
    }

    private FaceResult result(FaceMesh kept, PartKind kind, double thicknessMm) {
        FaceMesh face = evened(kept, thicknessMm);
        FaceLoops loops = FaceLoops.of(face.mesh(), face.topology());
        if (loops.perimeter() == null) {
            throw new Rejection(FaceFindings.noEdge(kind));
        }
        double area = face.mesh().area();
        return new FaceResult(face.mesh(), face.topology(), face.source(), kind, loops.perimeter(), loops.openings(),
                loops.perimeterMm(), area, Math.max(0, Arrays.stream(edges.areas()).sum() - area), thicknessMm,
                List.copyOf(findings));
    }

    private FaceMesh evened(FaceMesh kept, double thicknessMm) {
        if (Double.isNaN(thicknessMm)) {
            return ShortBorderEdges.without(kept, STRAIGHT_MM);
        }
        FaceMesh face = BorderFlaps.without(kept, thicknessMm, pull);
        double[] xyz = FairBorder.of(face, thicknessMm);
        if (xyz == null) {
            return ShortBorderEdges.without(face, STRAIGHT_MM);
        }
        findings.add(FaceFindings.borderEvened(face, xyz));
        return ShortBorderEdges.without(face.at(xyz), EVENED_STRAIGHT * thicknessMm);
    }
}
