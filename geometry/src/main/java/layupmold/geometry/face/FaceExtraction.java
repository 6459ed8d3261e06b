package layupmold.geometry.face;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.finding.Finding;
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
        return result(EvenedFace.asIs(new FaceMesh(face, faceTopology, source)), PartKind.OPEN_SHEET, Double.NaN);
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
                RimField.ofSolid(mesh, topology, edges, band, pull), PartKind.SOLID, Double.NaN, pull);
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
        Vector3d rimPull = inner ? null : pull;
        RimBand band = RimBand.of(mesh, topology, creases, segments, labels.kept());
        FaceFindings.cutAcrossWall(mesh, topology, creases, labels, regions, band).ifPresent(findings::add);
        return cut(labels, () -> creases.endInWall(topology, regions),
                RimField.of(mesh, topology, creases, band, rimPull), PartKind.CLOSED_SHELL, typical, rimPull);
    }

    private int nearest(Keep.Seed seed) {
        NearestPoint answer = new NearestPoint();
        bvh.nearest(seed.x(), seed.y(), seed.z(), Double.MAX_VALUE, answer);
        FaceFindings.seedOff(seed, answer.distance(), mesh).ifPresent(findings::add);
        return answer.triangle;
    }

    private FaceResult cut(WallLabels labels, Supplier<boolean[]> endsInWall, float[] field, PartKind kind,
            double thicknessMm, Vector3d rimPull) {
        SurfaceSplit split = SurfaceSplit.of(mesh, topology, labels.kept(), RimField.known(topology, field), field);
        EdgeTopology splitTopology = split.isWhole() ? topology : EdgeTopology.of(split.mesh());
        double[] areas = split.isWhole() ? edges.areas() : split.areas();
        KeptPiece.clean(splitTopology, areas, split, labels, endsInWall).ifPresent(findings::add);
        FaceMesh face = FaceMesh.of(split.mesh(), split.kept(), areas);
        if (kind == PartKind.SOLID) {
            return result(EvenedFace.asIs(face.within(split.source())), kind, thicknessMm);
        }
        FairCut fair = FairCut.of(split.mesh(), splitTopology, split.kept(), face, thicknessMm, rimPull);
        List<FaceMesh> ways = fair == null ? List.of() : Arrays.stream(FairCut.WIDTHS).mapToObj(fair::field)
                .map(again -> cutAgain(split, splitTopology, again, labels, endsInWall))
                .flatMap(Optional::stream).toList();
        return result(EvenedFace.best((ways.isEmpty() ? List.of(face.within(split.source())) : ways).stream()
                .map(way -> EvenedFace.of(way, thicknessMm, pull)).toList()), kind, thicknessMm);
    }

    /** The face within another border; empty if a part of it would be lost. */
    private static Optional<FaceMesh> cutAgain(SurfaceSplit split, EdgeTopology topology, float[] field,
            WallLabels labels, Supplier<boolean[]> endsInWall) {
        SurfaceSplit again = SurfaceSplit.of(
                split.mesh(), topology, split.kept(), RimField.known(topology, field), field).within(split.source());
        double[] areas = again.areas();
        if (KeptPiece.clean(EdgeTopology.of(again.mesh()), areas, again, labels, endsInWall).isPresent()) {
            return Optional.empty();
        }
        return Optional.of(FaceMesh.of(again.mesh(), again.kept(), areas).within(again.source()));
    }

    private FaceResult result(EvenedFace evened, PartKind kind, double thicknessMm) {
        evened.finding().ifPresent(findings::add);
        return FaceResult.of(
                evened.face(), kind, Arrays.stream(edges.areas()).sum(), thicknessMm, findings);
    }
}
