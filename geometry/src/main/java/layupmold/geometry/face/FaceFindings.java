package layupmold.geometry.face;

import java.util.Optional;
import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.Keep;
import org.joml.Vector3d;

/** What the face stage has to say. */
final class FaceFindings {

    private static final double LEAST_SHARE = 0.02;
    private static final double LEAST_CERTAIN = 0.5;
    /** Length of cut through an unbroken wall from which it is worth a look, in wall thicknesses. */
    private static final double CUT_ACROSS = 3;
    /** A seed farther off than this share of the part's size is not meant for it. */
    private static final double SEED_REACH = 0.25;
    private static final String ADVICE = "Give the pull direction, or keep: a seed point on the wanted wall.";

    private FaceFindings() {
    }

    static Finding oneWallOnly(PartKind kind) {
        return Finding.warning(FaceExtraction.STAGE, "keep-ignored",
                "A part of kind " + kind.label() + " has one wall only; the recipe's choice of wall has no effect.");
    }

    static Optional<Finding> seedOff(Keep.Seed seed, double distanceMm, TriangleMesh mesh) {
        double[] box = mesh.bounds();
        double most = SEED_REACH * new Vector3d(box[3] - box[0], box[4] - box[1], box[5] - box[2]).length();
        return distanceMm <= most ? Optional.empty() : Optional.of(Finding.warning(FaceExtraction.STAGE, "seed-off-part",
                "The seed point lies far off the part; the wall nearest to it is kept.")
                .measured(distanceMm, most, "mm").at(Place.at(new Vector3d(seed.x(), seed.y(), seed.z())))
                .advising("Give a point on the wall, in the mesh's own coordinates and unit."));
    }

    static Finding sheetTurned() {
        return Finding.warning(FaceExtraction.STAGE, "sheet-turned",
                "The sheet's triangles face along the pull; their backs were taken for the outside.")
                .advising("Check that the face is on the side you expect, or give the opposite pull.");
    }

    static Finding noEdge(PartKind kind) {
        return Finding.error(FaceExtraction.STAGE, "face-has-no-edge",
                "The kept surface of this " + kind.label() + " closes on itself: there is no rim to demold from.")
                .advising("Post a part with a rim, or split it into parts that each leave a mold.");
    }

    static Finding pieceDropped(SurfaceSplit split, int triangle, double areaMm2) {
        Vector3d at = split.mesh().centroid(triangle);
        return Finding.warning(FaceExtraction.STAGE, "face-piece-dropped",
                "A piece of the face is not connected to the rest and was left out.")
                .at(new Place(at.x, at.y, at.z, split.source()[triangle]))
                .measured(areaMm2, null, "mm2")
                .advising("Join the pieces, or make a mold of each.");
    }

    /** Where the corner lay that went farthest. */
    static Finding borderEvened(FaceMesh face, double[] moved) {
        int farthest = 0;
        double mostMm = 0;
        for (int v = 0; v < face.mesh().vertexCount(); v++) {
            double mm = face.mesh().vertex(v).distance(moved[3 * v], moved[3 * v + 1], moved[3 * v + 2]);
            if (mm > mostMm) {
                mostMm = mm;
                farthest = v;
            }
        }
        return Finding.info(FaceExtraction.STAGE, "border-evened",
                "The face's border zigzags from triangle to triangle, and was evened out.")
                .at(Place.at(face.mesh().vertex(farthest))).measured(mostMm, null, "mm")
                .advising("A finer mesh, or one with an edge at the rim, keeps the border where it is.");
    }

    /** Where the corner of the whole face's border was that lies farthest from what is left of it. */
    static Finding borderTrimmed(FaceResult whole, TriangleMesh left) {
        TriangleBvh bvh = TriangleBvh.of(left);
        NearestPoint nearest = new NearestPoint();
        boolean[] border = whole.topology().borderVertices(whole.mesh().vertexCount());
        Vector3d farthest = whole.mesh().vertex(0);
        double mostMm = 0;
        for (int v = 0; v < border.length; v++) {
            Vector3d at = whole.mesh().vertex(v);
            if (border[v]) {
                bvh.nearest(at.x, at.y, at.z, Double.MAX_VALUE, nearest);
                if (nearest.distance() > mostMm) {
                    mostMm = nearest.distance();
                    farthest = at;
                }
            }
        }
        return Finding.warning(FaceExtraction.STAGE, "border-trimmed",
                "The sheet's border is torn from triangle to triangle: no flange can follow it, and it was trimmed.")
                .at(Place.at(farthest)).measured(mostMm, null, "mm")
                .advising("Cut the sheet along an even line, a little beyond where the part is to end.");
    }

    static Finding boreLeftOut(TriangleMesh mesh, int triangle, double depthMm) {
        Vector3d at = mesh.centroid(triangle);
        return Finding.warning(FaceExtraction.STAGE, "bore-left-out",
                "An opening's wall runs straight in, without draft: it was left out, and the opening ends at its edge.")
                .at(new Place(at.x, at.y, at.z, triangle))
                .measured(depthMm, null, "mm")
                .advising("Drill holes into the finished part. A collar that is to be laminated needs draft.");
    }

    static void requireBothWalls(WallLabels labels, double[] areas) {
        double kept = 0;
        double total = 0;
        for (int t = 0; t < areas.length; t++) {
            total += areas[t];
            kept += labels.kept()[t] ? areas[t] : 0;
        }
        if (kept < LEAST_SHARE * total || kept > (1 - LEAST_SHARE) * total) {
            throw new Rejection(Finding.error(FaceExtraction.STAGE, "walls-not-told-apart",
                    "The part's two walls cannot be told apart along this pull.")
                    .measured(kept / total, LEAST_SHARE, "1").advising(ADVICE));
        }
    }

    /** A warning where a large share of the kept wall rests on no evidence; its place is the doubtful patch's. */
    static Optional<Finding> doubtfulWalls(TriangleMesh mesh, Patches patches, WallSurvey survey, WallLabels labels,
            double[] areas) {
        double paired = 0;
        double certain = 0;
        int worst = -1;
        for (int t = 0; t < areas.length; t++) {
            int p = patches.ofTriangle()[t];
            if (!labels.kept()[t] || !survey.isPaired(p)) {
                continue;
            }
            paired += areas[t];
            if (labels.evidence()[t] > WallLabels.SURE) {
                certain += areas[t];
            } else if (worst < 0 || labels.evidence()[t] < labels.evidence()[worst]) {
                worst = t;
            }
        }
        if (worst < 0 || certain >= LEAST_CERTAIN * paired) {
            return Optional.empty();
        }
        Vector3d at = mesh.centroid(worst);
        return Optional.of(Finding.warning(FaceExtraction.STAGE, "walls-hard-to-tell-apart",
                "Both walls are seen about equally well from the mold's side; the kept one may be the wrong one.")
                .at(new Place(at.x, at.y, at.z, worst))
                .measured(certain / paired, LEAST_CERTAIN, "1").advising(ADVICE));
    }

    /**
     * A warning if the walls are parted along a line that is neither an edge nor a rounding.
     *
     * @param regions of the labels
     * @param band the roundings that will be cut
     */
    static Optional<Finding> cutAcrossWall(TriangleMesh mesh, EdgeTopology topology, Creases creases,
            WallLabels labels, LabelRegions regions, RimBand band) {
        EdgeAngles edges = creases.edges();
        boolean[] isCut = band.cuttable();
        // Other pieces are left out anyway, and said so; in roundings the labels end anywhere until they are cut.
        int main = LabelRegions.largest(regions.areas(labels.kept(), edges.areas()));
        double length = 0;
        int worst = -1;
        for (int h = 0; h < topology.halfEdgeCount(); h++) {
            int g = topology.twin(h);
            if (g > h && (regions.ofTriangle()[h / 3] == main) != (regions.ofTriangle()[g / 3] == main)
                    && creases.isInWall(h) && !(isCut[h / 3] && isCut[g / 3])) {
                length += edges.length(h);
                if (worst < 0 || edges.length(h) > edges.length(worst)) {
                    worst = h;
                }
            }
        }
        if (worst < 0 || length < CUT_ACROSS * creases.thickness()[worst / 3]) {
            return Optional.empty();
        }
        Vector3d at = mesh.vertex(topology.from(worst));
        return Optional.of(Finding.warning(FaceExtraction.STAGE, "cut-across-wall",
                "The face ends in the middle of a smooth wall here: there is no rim to end at.")
                .at(new Place(at.x, at.y, at.z, worst / 3))
                .measured(length, CUT_ACROSS * creases.thickness()[worst / 3], "mm").advising(ADVICE));
    }
}
