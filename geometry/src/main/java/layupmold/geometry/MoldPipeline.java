package layupmold.geometry;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import layupmold.geometry.body.BodyBuilder;
import layupmold.geometry.body.MoldSolid;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.congruence.Isometry;
import layupmold.geometry.face.FaceExtraction;
import layupmold.geometry.face.FaceResult;
import layupmold.geometry.face.TornBorder;
import layupmold.geometry.fillet.FilletFigures;
import layupmold.geometry.fillet.FilletStage;
import layupmold.geometry.fillet.FilletedSurface;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.finding.Severity;
import layupmold.geometry.flange.FlangeBuilder;
import layupmold.geometry.flange.FlangedSurface;
import layupmold.geometry.flange.PerimeterSides;
import layupmold.geometry.inspect.CopiedSurface;
import layupmold.geometry.inspect.FabricFit;
import layupmold.geometry.inspect.Inspection;
import layupmold.geometry.laminate.LaminateFigures;
import layupmold.geometry.laminate.LaminateStack;
import layupmold.geometry.laminate.OffsetRule;
import layupmold.geometry.mark.TrimMark;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.PartFile;
import layupmold.geometry.mesh.prepare.CleanPart;
import layupmold.geometry.mesh.prepare.PartCleaner;
import layupmold.geometry.mesh.prepare.SelfCrossing;
import layupmold.geometry.offset.OffsetStage;
import layupmold.geometry.offset.OffsetSurface;
import layupmold.geometry.opening.CappedFace;
import layupmold.geometry.opening.NearestOpenings;
import layupmold.geometry.opening.OpeningCapper;
import layupmold.geometry.opening.TrimEngraving;
import layupmold.geometry.plug.CorePlugs;
import layupmold.geometry.pull.PullResult;
import layupmold.geometry.pull.PullSearch;
import layupmold.geometry.recipe.Keep;
import layupmold.geometry.recipe.OpeningSpec;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.recipe.Tool;
import layupmold.geometry.report.MoldReport;
import org.joml.Vector3d;

/**
 * The one entry point: a part's mesh and a recipe in, a checked mold or the reason for none out.
 *
 * <p>Same part and recipe give the same bytes on any number of threads. Close to linear in the number of triangles.
 */
public final class MoldPipeline {

    /** For wall, rise and offset. */
    private static final double SPARE_EXTENT_MM = 100;

    private final Recipe recipe;
    private final Progress progress;
    private final List<Finding> findings = new ArrayList<>();
    /** From the posted frame to the one the running stage works in. */
    private RigidTransform frame = RigidTransform.identity();
    /** The part as it is worked on; null before that. */
    private TriangleMesh cleaned;

    private MoldPipeline(Recipe recipe, Progress progress) {
        this.recipe = recipe;
        this.progress = progress;
    }

    /**
     * @param part the mesh as its file gave it
     * @param recipe everything else
     * @param progress told at the start of every stage
     * @throws java.util.concurrent.CancellationException if {@code progress} throws it or the thread is interrupted
     */
    public static MoldOutcome make(PartFile part, Recipe recipe, Progress progress) {
        MoldPipeline pipeline = new MoldPipeline(recipe, progress);
        try {
            return pipeline.run(part);
        } catch (Rejection rejection) {
            Finding reason = pipeline.toPart().apply(rejection.finding());
            if (pipeline.cleaned != null) {
                SelfCrossing.in(pipeline.cleaned).ifPresent(pipeline.findings::add);
            }
            pipeline.findings.add(reason);
            return new MoldOutcome.Rejected(reason, pipeline.findings);
        }
    }

    /**
     * What came of a part, for another one that is congruent to it: the same mold, or its mirror image. O(n).
     *
     * @param made of the same recipe
     * @param toTwin from the part that was worked on to the other, both in mm
     * @param note finding for the report that says so
     */
    public static MoldOutcome carry(MoldOutcome made, Isometry toTwin, Finding note) {
        return new CarriedMold(toTwin, note).carry(made);
    }

    private MoldOutcome run(PartFile file) {
        boolean female = recipe.tool() == Tool.FEMALE;
        LaminateFigures laminate = LaminateStack.of(recipe.layup());
        double offset = OffsetRule.signedOffsetMm(recipe.tool(), recipe.hold(), laminate.laminateMm(),
                recipe.releaseMm(), recipe.layup().finishCoatMm());
        double behindMm = female ? offset : -offset;

        CleanPart part = stage("read", 0, () -> PartCleaner.clean(file, recipe));
        cleaned = part.mesh();
        collect(file.findings());
        collect(part.findings());

        TriangleBvh bvh = TriangleBvh.of(part.mesh());
        Keep keep = recipe.keep().scaled(part.unit().inMm());
        PullResult pull = stage("pull", 0.1,
                () -> PullSearch.find(part.mesh(), part.topology(), bvh, recipe.withKeep(keep)));
        collect(pull.findings());
        Vector3d intoCavity = pull.searched() || female ? pull.direction() : pull.direction().negate(new Vector3d());
        Vector3d leaving = female ? intoCavity : intoCavity.negate(new Vector3d());

        FaceResult face = stage("face", 0.2,
                () -> FaceExtraction.extract(part.mesh(), part.topology(), bvh, intoCavity, keep));
        double ballMm = recipe.fillet().fill() ? FilletStage.ballMm(filletMm(), behindMm) : 0;
        Grown grown = grow(face, leaving, part.unit().inMm(), offset, ballMm);

        FilletedSurface filled = !recipe.fillet().fill() ? FilletedSurface.asItWas(grown.flanged())
                : stage("fillet", 0.46, () -> FilletStage.fill(
                        grown.flanged(), grown.capped().mesh().xyz(), filletMm(), ballMm, behindMm));
        FlangedSurface flanged = filled.surface();
        FilletFigures fillet = filled.figures() == null ? null : filled.figures().in(toPart());
        collect(filled.findings());

        OffsetSurface moved = stage("offset", 0.47,
                () -> OffsetStage.offset(flanged, -behindMm, grown.lattice()));
        collect(moved.findings());
        OffsetSurface tool = !anyOf(grown.plugged()) ? moved : stage("plug", 0.64,
                () -> CorePlugs.raise(moved, recipe.openings(), laminate.laminateMm(), grown.lattice()));
        if (tool != moved) {
            collect(tool.findings());
        }

        MoldSolid solid = stage("body", 0.65, () -> BodyBuilder.build(tool, recipe.body(), grown.lattice()));
        collect(solid.findings());
        frame = frame.then(solid.placement());

        FinishedMold finished = stage("inspect", 0.7, () -> FinishedMold.measure(
                solid, target(flanged, female, solid.placement()), offset,
                tool.worst().in(solid.placement()), recipe));
        finished.failures().stream().findFirst().ifPresent(failure -> {
            finished.failures().stream().skip(1).forEach(f -> findings.add(toPart().apply(f)));
            throw new Rejection(failure);
        });
        collect(finished.findings());

        Isometry toPart = toPart();
        Inspection inspected = finished.inspection().in(toPart);
        MoldReport report = new MoldReport(
                Figures.part(part, grown.face()),
                Figures.pull(pull, leaving, grown.face(), intoCavity),
                Figures.face(grown.face()),
                finished.openingFigures(grown.face()),
                laminate,
                finished.offsetFigures(tool, recipe, laminate, toPart::apply),
                finished.flangeFigures(tool, solid),
                finished.bodyFigures(recipe, solid.parts(), toPart::apply),
                finished.checks(),
                inspected.wall(), inspected.demold(), inspected.fabric(), fillet, inspected.print(),
                findings);
        progress.at("done", 1);
        Workpiece workpiece = new Workpiece(frame.apply(part.mesh()), solid.placement().apply(grown.turned().mesh()));
        return new MoldOutcome.Mold(solid.mesh(), solid.regions(), frame, report, finished.inspection(), workpiece);
    }

    /** A face with its openings closed, and what its flange makes of it. */
    private record Grown(FaceResult face, FaceFrame turned, boolean[] plugged, CappedFace capped,
            CoordinateLattice lattice, FlangedSurface flanged) {
    }

    /** Where no flange follows a torn border, the sheet is trimmed to an even one. */
    private Grown grow(FaceResult face, Vector3d leaving, double unitMm, double offsetMm, double ballMm) {
        Optional<FaceResult> trimmed = TornBorder.trimmed(face);
        int said = findings.size();
        try {
            return growFrom(face, leaving, unitMm, offsetMm, ballMm, trimmed.isEmpty());
        } catch (Rejection rejection) {
            FaceResult even = trimmed.orElseThrow(() -> rejection);
            findings.subList(said, findings.size()).clear();
            frame = RigidTransform.identity();
            return growFrom(even, leaving, unitMm, offsetMm, ballMm, true);
        }
    }

    private Grown growFrom(
            FaceResult face, Vector3d leaving, double unitMm, double offsetMm, double ballMm, boolean narrows) {
        boolean female = recipe.tool() == Tool.FEMALE;
        collect(face.findings());
        FaceFrame turned = FaceFrame.of(face, leaving, female);
        frame = turned.fromPart();

        // On caps it is a groove of either tool, whose body lies outside or inside the part.
        TrimMark groove = TrimMark.of(recipe.flange().trimLineDepthMm(), female ? offsetMm : -offsetMm);
        TrimMark mark = female ? groove : groove.reversed();
        boolean[] plugged = plugged(turned, unitMm);
        FaceFrame fine = turned.withShortSides(
                PerimeterSides.mostMm(turned.mesh(), turned.topology(), turned.perimeter()));
        CappedFace capped = stage("opening", 0.4, () -> OpeningCapper.cap(fine.mesh(), fine.topology(),
                fine.openings(), fine.perimeter(), marks(plugged, mark),
                CorePlugs.collars(plugged, recipe.tool(), offsetMm, ballMm, recipe.inspect().flexDepthMm())));
        collect(capped.findings());
        TriangleMesh engraved = TrimEngraving.engrave(capped, mark.depthMm());

        CoordinateLattice lattice = CoordinateLattice.within(extentMm(engraved));
        FlangedSurface flanged =
                stage("flange", 0.45, () -> flange(engraved, capped, plugged, offsetMm, ballMm, narrows, lattice));
        collect(flanged.findings());
        return new Grown(face, turned, plugged, capped, lattice, flanged);
    }

    private double filletMm() {
        return recipe.fillet().radiusMm() != null ? recipe.fillet().radiusMm() : FabricFit.clothRadiusMm(recipe);
    }

    /** Which openings get a core plug. */
    private boolean[] plugged(FaceFrame face, double unitMm) {
        OpeningSpec spec = recipe.openings();
        boolean[] plugged = NearestOpenings.of(face.mesh(), face.topology(), face.openings(), spec.exceptAt().stream()
                .map(p -> face.fromPart().apply(new Vector3d(p).mul(unitMm))).toList());
        for (int i = 0; i < plugged.length; i++) {
            plugged[i] ^= spec.kind() == OpeningSpec.Kind.CORE_PLUG;
        }
        return plugged;
    }

    private static boolean anyOf(boolean[] plugged) {
        return IntStream.range(0, plugged.length).anyMatch(i -> plugged[i]);
    }

    private static TrimMark[] marks(boolean[] plugged, TrimMark mark) {
        TrimMark[] marks = new TrimMark[plugged.length];
        Arrays.setAll(marks, i -> plugged[i] ? TrimMark.NONE : mark);
        return marks;
    }

    private FlangedSurface flange(TriangleMesh engraved, CappedFace capped, boolean[] plugged, double offsetMm,
            double ballMm, boolean narrows, CoordinateLattice lattice) {
        boolean female = recipe.tool() == Tool.FEMALE;
        TriangleMesh facingOut = female ? engraved.flipped() : engraved;
        int[] perimeter = capped.perimeter().clone();
        if (female) {
            for (int i = 0, k = perimeter.length - 1; i < k; i++, k--) {
                int swap = perimeter[i];
                perimeter[i] = perimeter[k];
                perimeter[k] = swap;
            }
        }
        byte[] regions = new byte[facingOut.triangleCount()];
        for (int t = 0; t < regions.length; t++) {
            int cap = capped.capOfTriangle()[t];
            MoldRegion region = cap < 0 ? MoldRegion.TOOL : plugged[cap] ? MoldRegion.PLUG : MoldRegion.CAP;
            regions[t] = (byte) region.ordinal();
        }
        return FlangeBuilder.build(facingOut, regions, perimeter, recipe.tool(), recipe.flange(),
                BodyBuilder.roomMm(recipe.body()), offsetMm, ballMm, narrows, lattice);
    }

    /** What the tool surface is offset from, openings closed, facing the part's outside. */
    private static CopiedSurface target(FlangedSurface flanged, boolean female, RigidTransform placement) {
        return CopiedSurface.of(
                placement.apply(female ? flanged.mesh().flipped() : flanged.mesh()), flanged.regions());
    }

    /** No part of the mold will be farther than this from its frame's origin. */
    private double extentMm(TriangleMesh face) {
        double[] box = face.bounds();
        double longest = Math.max(box[3] - box[0], Math.max(box[4] - box[1], box[5] - box[2]));
        return longest + 2 * recipe.flange().widthMm() + SPARE_EXTENT_MM;
    }

    private interface StageBody<T> {
        T run();
    }

    private <T> T stage(String name, double done, StageBody<T> body) {
        progress.at(name, done);
        return body.run();
    }

    private void collect(List<Finding> found) {
        Isometry toPart = toPart();
        for (Finding finding : found) {
            findings.add(toPart.apply(finding));
            if (finding.severity() == Severity.ERROR) {
                throw new IllegalStateException("a stage must throw its errors: " + finding);
            }
        }
    }

    /** From the running stage's frame to the posted one. */
    private Isometry toPart() {
        return frame.inverse().isometry();
    }
}
