package layupmold.geometry;

import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.congruence.Isometry;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.report.BodyFigures;
import layupmold.geometry.report.MoldReport;
import layupmold.geometry.report.OffsetFigures;
import layupmold.geometry.report.PartFigures;
import layupmold.geometry.report.PullFigures;
import org.joml.Matrix4d;
import org.joml.Vector3d;

/**
 * What came of one part, carried over to a congruent one. The mold is the same solid, or its mirror image across x = 0
 * with every triangle wound the other way, so that it stands as it stood and faces outward; negating a coordinate is
 * exact. What was measured keeps its figure and moves its place.
 */
final class CarriedMold {

    private final Isometry map;
    private final Finding note;

    CarriedMold(Isometry map, Finding note) {
        this.map = map;
        this.note = note;
    }

    MoldOutcome carry(MoldOutcome made) {
        if (made instanceof MoldOutcome.Rejected rejected) {
            Finding reason = moved(rejected.reason());
            List<Finding> findings = new ArrayList<>(rejected.findings().stream().map(this::moved).toList());
            findings.add(note);
            return new MoldOutcome.Rejected(reason, findings);
        }
        return carry((MoldOutcome.Mold) made);
    }

    private MoldOutcome.Mold carry(MoldOutcome.Mold mold) {
        Workpiece workpiece = new Workpiece(image(mold.workpiece().part()), image(mold.workpiece().face()));
        Matrix4d partToMold = new Matrix4d(mold.partToMold().matrix()).mul(map.inverse().matrix());
        RigidTransform carried = new RigidTransform(
                map.mirrors() ? new Matrix4d().scaling(-1, 1, 1).mul(partToMold) : partToMold);
        return new MoldOutcome.Mold(image(mold.solid()), mold.regions(), carried,
                moved(mold.report(), extent(carried.inverse().apply(workpiece.part()))),
                map.mirrors() ? mold.inspection().in(Isometry.mirrorX()) : mold.inspection(), workpiece);
    }

    private TriangleMesh image(TriangleMesh mesh) {
        if (!map.mirrors()) {
            return mesh;
        }
        double[] xyz = mesh.xyz().clone();
        for (int i = 0; i < xyz.length; i += 3) {
            // Not -0.0, which some programs print.
            xyz[i] = 0.0 - xyz[i];
        }
        return new TriangleMesh(xyz, mesh.triangles()).flipped();
    }

    private static Vector3d extent(TriangleMesh part) {
        double[] box = part.bounds();
        return new Vector3d(box[3] - box[0], box[4] - box[1], box[5] - box[2]);
    }

    private MoldReport moved(MoldReport report, Vector3d size) {
        PartFigures part = report.part();
        PullFigures pull = report.pull();
        OffsetFigures offset = report.offset();
        BodyFigures body = report.body();
        List<Finding> findings = new ArrayList<>(report.findings().stream().map(this::moved).toList());
        findings.add(note);
        return new MoldReport(
                new PartFigures(part.format(), part.kind(), part.triangles(), part.vertices(), size, part.areaMm2(),
                        part.components(), part.weldedVertices(), part.droppedTriangles(), part.flippedTriangles()),
                new PullFigures(map.applyToDirection(pull.direction()), pull.searched(), pull.undercutMm2(),
                        pull.undercutShare(),
                        pull.runnerUp() == null ? null : map.applyToDirection(pull.runnerUp()),
                        pull.runnerUpUndercutMm2()),
                report.face(), report.openings(), report.laminate(),
                new OffsetFigures(offset.signedMm(), offset.words(), offset.method(), offset.meanDeviationMm(),
                        offset.p95DeviationMm(), offset.maxDeviationMm(), moved(offset.maxPlace()),
                        offset.reachLimitedMm2(), offset.uncoveredMm2(), offset.deviations()),
                report.flange(),
                new BodyFigures(body.kind(), body.triangles(), body.sizeMm(), body.volumeMm3(), body.blockVolumeMm3(),
                        body.feet(), body.notches(), body.screwHoles(), body.tipDeg(), body.leastWallMm(),
                        moved(body.leastWallPlace())),
                report.checks(), report.wall().in(map), report.demold().in(map), report.fabric().in(map),
                report.fillet() == null ? null : report.fillet().in(map),
                report.print().in(map), findings);
    }

    private Finding moved(Finding finding) {
        return finding.place() == null ? finding : finding.at(moved(finding.place()));
    }

    /** Triangles are numbered otherwise in the other file, so the number goes. */
    private Place moved(Place place) {
        if (place == null) {
            return null;
        }
        return Place.at(map.apply(place.point()));
    }
}
