package layupmold.geometry.offset.repair;

import java.util.Arrays;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.offset.trim.FoldTrim;

/**
 * Makes a sound surface of one whose vertices moved to the offset: cuts its folds off along their crossings
 * ({@link FoldTrim}), and contours what that cannot decide from the distance field, in a sparse grid around those places
 * ({@link Contouring}).
 */
public final class LocalRepair {

    private static final double COARSEST_MM = 0.5;
    private static final double FINEST_MM = 0.12;
    /** Grid size over offset where nothing else decides. */
    private static final double SIZE_PER_OFFSET = 0.5;
    /** Where a trimmed surface is this far off, what it kept should have been cut off. */
    private static final double WRONG_MM = 0.05;
    /** Grid for places that miss although they are sound. */
    private static final double REFINING_MM = 0.15;

    /**
     * @param mesh the repaired surface, without unused vertices
     * @param labels region of each triangle
     * @param moved whether a vertex is one of the given, moved, with all its triangles at the offset
     * @param folds how many triangles turned over or crossed
     * @param cellMm grid size where places were contoured, else 0
     * @param place middle of a triangle that turned over or crossed, as moved; null if there is none
     * @param field what the surface is held against
     */
    public record Result(TriangleMesh mesh, int[] labels, boolean[] moved, int folds, double cellMm, Place place,
            OffsetField field) {

        /** Whether every triangle is a given one, at the offset. */
        public boolean isAsMoved() {
            for (boolean m : moved) {
                if (!m) {
                    return false;
                }
            }
            return folds == 0;
        }
    }

    private LocalRepair() {
    }

    /** Moves vertices by {@code offset} mm along the triangles' fronts; the offset stage's fast path. */
    @FunctionalInterface
    public interface VertexMove {
        double[] move(TriangleMesh mesh, double offset);
    }

    /**
     * @param surface capped face and flange facing the side it is moved to
     * @param regions region of each triangle
     * @param offset mm, positive
     * @param mitreLimit how far a mitre may reach, in offsets
     * @param toleranceMm how far the moved surface may be off before its vertices count as not moved
     * @param move moves vertices to their triangles' offset planes
     * @param lattice coordinates that the moved vertices may have
     * @throws Rejection if the offset surface cannot be built
     */
    public static Result repair(TriangleMesh surface, byte[] regions, double offset, double mitreLimit,
            double toleranceMm, VertexMove move, CoordinateLattice lattice) {
        OffsetField field = new OffsetField(surface, offset, mitreLimit);
        MovedSurface moved = MovedSurface.of(surface, regions, move.move(surface, offset), field, lattice);
        TriangleMesh mesh = moved.mesh();
        int[] pairs = moved.crossing();
        int folds = folds(moved.turned(), pairs);
        LabelledSheet raw = new LabelledSheet(
                mesh, labels(moved, regions, identity(mesh.triangleCount())), identity(mesh.vertexCount()));
        if (folds == 0 && mesh.triangleCount() == surface.triangleCount()) {
            return new Result(mesh, raw.labels(), atOffset(raw, moved, field, toleranceMm), 0, 0, null, field);
        }
        Place place = folds == 0 ? null : Place.at(mesh.centroid(first(moved.turned(), pairs)));
        FoldTrim.Result trimmed = FoldTrim.trim(mesh, moved.turned(), () -> field.targetAnywhere()::miss);
        LabelledSheet sheet = trimmed == null ? raw
                : new LabelledSheet(trimmed.mesh(), labels(moved, regions, trimmed.source()), trimmed.given());
        double cell = 0;
        if (trimmed == null || trimmed.defects().length > 0) {
            double finest = Math.max(FINEST_MM, Math.min(COARSEST_MM, SIZE_PER_OFFSET * offset));
            Contouring.Result contoured = null;
            if (trimmed != null) {
                Defects torn = Defects.atEdges(sheet.mesh(), trimmed.defects());
                contoured = Contouring.contour(sheet, regions, torn, field, finest);
                if (contoured == null) {
                    contoured = Contouring.contour(sheet, regions, torn.andOffTarget(field, WRONG_MM), field, finest);
                }
            }
            if (contoured == null) {
                contoured = Contouring.contour(
                        raw, regions, Defects.ofFolds(moved, pairs, field, toleranceMm), field, finest);
            }
            if (contoured == null) {
                throw new Rejection(Finding.error("offset", "offset-not-closed",
                        "The offset surface could not be closed at this place.").at(place)
                        .advising("Thinner plies need a smaller offset; else smooth the part where it is tighter than "
                                + "that."));
            }
            sheet = contoured.sheet();
            cell = contoured.cellMm();
        }
        return new Result(
                sheet.mesh(), sheet.labels(), atOffset(sheet, moved, field, toleranceMm), folds, cell, place, field);
    }

    /** Which vertices are given ones whose triangles all lie at the offset. */
    private static boolean[] atOffset(
            LabelledSheet sheet, MovedSurface moved, OffsetField field, double toleranceMm) {
        int[] given = sheet.given();
        boolean[] suspect = new boolean[given.length];
        for (int v = 0; v < given.length; v++) {
            suspect[v] = given[v] < 0 || moved.suspect()[given[v]];
        }
        boolean[] off = OffTarget.vertices(sheet.mesh(), suspect, field, toleranceMm);
        boolean[] at = new boolean[given.length];
        for (int v = 0; v < given.length; v++) {
            at[v] = given[v] >= 0 && !off[v];
        }
        return at;
    }

    private static int[] labels(MovedSurface moved, byte[] regions, int[] triangles) {
        return Arrays.stream(triangles).map(t -> regions[moved.source()[t]]).toArray();
    }

    /**
     * Contours finely where a surface that is sound still misses the offset.
     *
     * @param labels region of each triangle
     * @param off which triangles miss
     * @param sheetRegions region of each triangle of the field's sheet
     * @return null if none misses, or nothing could be done
     */
    public static Result refine(TriangleMesh surface, int[] labels, boolean[] off, byte[] sheetRegions,
            OffsetField field, double toleranceMm) {
        Defects defects = Defects.offTarget(surface, off, field, toleranceMm);
        if (defects.triangles().length == 0) {
            return null;
        }
        Contouring.Result contoured = Contouring.contour(
                new LabelledSheet(surface, labels, identity(surface.vertexCount())), sheetRegions, defects, field,
                REFINING_MM);
        if (contoured == null) {
            return null;
        }
        LabelledSheet sheet = contoured.sheet();
        boolean[] kept = new boolean[sheet.given().length];
        for (int v = 0; v < kept.length; v++) {
            kept[v] = sheet.given()[v] >= 0;
        }
        return new Result(sheet.mesh(), sheet.labels(), kept, 0, contoured.cellMm(), null, field);
    }

    private static int[] identity(int n) {
        int[] own = new int[n];
        Arrays.setAll(own, i -> i);
        return own;
    }

    private static int folds(boolean[] turned, int[] pairs) {
        boolean[] bad = turned.clone();
        for (int t : pairs) {
            bad[t] = true;
        }
        int count = 0;
        for (boolean b : bad) {
            count += b ? 1 : 0;
        }
        return count;
    }

    private static int first(boolean[] turned, int[] pairs) {
        int first = pairs.length > 0 ? pairs[0] : turned.length;
        for (int t = 0; t < first; t++) {
            if (turned[t]) {
                return t;
            }
        }
        return first;
    }
}
