package layupmold.geometry;

import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.face.FaceResult;
import layupmold.geometry.mesh.prepare.CleanPart;
import layupmold.geometry.mesh.prepare.CleaningCounts;
import layupmold.geometry.pull.PullResult;
import layupmold.geometry.pull.Undercut;
import layupmold.geometry.report.FaceFigures;
import layupmold.geometry.report.PartFigures;
import layupmold.geometry.report.PullFigures;
import org.joml.Vector3d;

/** The report's figures of the stages before there is a mold. */
final class Figures {

    private Figures() {
    }

    static PartFigures part(CleanPart part, FaceResult face) {
        CleaningCounts counts = part.counts();
        double[] box = part.mesh().bounds();
        return new PartFigures(part.format(), face.kind().label(), counts.postedTriangles(),
                part.mesh().vertexCount(), new Vector3d(box[3] - box[0], box[4] - box[1], box[5] - box[2]),
                part.mesh().area(), counts.components(), counts.weldedVertices(),
                counts.degenerateTriangles() + counts.duplicateTriangles() + counts.removedSlivers(),
                counts.flippedTriangles());
    }

    /** @param intoCavity the pull as the face stage took it: against the face's outside */
    static PullFigures pull(PullResult pull, Vector3d leaving, FaceResult face, Vector3d intoCavity) {
        TriangleBvh bvh = TriangleBvh.of(face.mesh());
        double undercut = Undercut.areaMm2(face.mesh(), bvh, intoCavity);
        Double runnerUpUndercut =
                pull.runnerUp() == null ? null : Undercut.areaMm2(face.mesh(), bvh, pull.runnerUp());
        Vector3d runnerUp = pull.runnerUp() == null ? null
                : leaving.dot(intoCavity) > 0 ? pull.runnerUp() : pull.runnerUp().negate(new Vector3d());
        return new PullFigures(leaving, pull.searched(), undercut, undercut / face.areaMm2(), runnerUp,
                runnerUpUndercut);
    }

    static FaceFigures face(FaceResult face) {
        return new FaceFigures(face.mesh().triangleCount(), face.areaMm2(), face.removedAreaMm2(),
                face.openings().size(), face.perimeterMm());
    }
}
