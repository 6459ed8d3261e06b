package layupmold.geometry.offset.repair;

import java.util.Arrays;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.finding.Place;
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

    /** How a surface is made sound, from what keeps most of its triangles to what keeps least. */
    public enum Way {
        /** Folds are cut off; where that leaves it torn it is contoured. */
        TRIMMED,
        /** The same, and what was kept but is far off is contoured too. */
        TRIMMED_WHERE_RIGHT,
        /** All that folds or is off is contoured; nothing is cut. */
        CONTOURED
    }

    /** Moves vertices by {@code offset} mm along the triangles' fronts; the offset stage's fast path. */
    @FunctionalInterface
    public interface VertexMove {
        double[] move(TriangleMesh mesh, double offset);
    }

    private final byte[] regions;
    private final OffsetField field;
    private final double toleranceMm;
    private final double cellMm;
    private final MovedSurface moved;
    private final LabelledSheet raw;
    private final int folds;
    private FoldTrim.Result trimmed;
    private boolean isTrimmed;

    private LocalRepair(MovedSurface moved, byte[] regions, OffsetField field, double toleranceMm, double cellMm) {
        this.moved = moved;
        this.regions = regions;
        this.field = field;
        this.toleranceMm = toleranceMm;
        this.cellMm = cellMm;
        TriangleMesh mesh = moved.mesh();
        this.raw = new LabelledSheet(
                mesh, labels(moved, regions, identity(mesh.triangleCount())), identity(mesh.vertexCount()));
        this.folds = folds(moved.turned(), moved.crossing());
    }

    /**
     * Moves a surface.
     *
     * @param surface capped face and flange facing the side it is moved to
     * @param regions region of each triangle
     * @param offset mm, positive
     * @param mitreLimit how far a mitre may reach, in offsets
     * @param toleranceMm how far the moved surface may be off before its vertices count as not moved
     * @param move moves vertices to their triangles' offset planes
     * @param lattice coordinates that the moved vertices may have
     */
    public static LocalRepair of(TriangleMesh surface, byte[] regions, double offset, double mitreLimit,
            double toleranceMm, VertexMove move, CoordinateLattice lattice) {
        OffsetField field = new OffsetField(surface, MoldRegion.areCopied(regions), offset, mitreLimit);
        MovedSurface moved = MovedSurface.of(surface, regions, move.move(surface, offset), field, lattice);
        return new LocalRepair(moved, regions, field, toleranceMm,
                Math.max(FINEST_MM, Math.min(COARSEST_MM, SIZE_PER_OFFSET * offset)));
    }

    /** The moved surface if nothing in it folded or was changed, else null. */
    public Result asMoved() {
        return folds == 0 && raw.mesh().triangleCount() == regions.length ? result(raw, 0) : null;
    }

    /** Middle of a triangle that turned over or crossed, as moved; null if there is none. */
    public Place place() {
        return folds == 0 ? null : Place.at(raw.mesh().centroid(first(moved.turned(), moved.crossing())));
    }

    /** Triangles that crossed before they moved, two by two. */
    public int[] crossedBefore() {
        return moved.crossed();
    }

    /** A sound surface, or null if this way leads to none. */
    public Result by(Way way) {
        if (way == Way.CONTOURED) {
            return contoured(raw, Defects.ofFolds(moved, moved.crossing(), field, toleranceMm));
        }
        if (!isTrimmed) {
            isTrimmed = true;
            trimmed = FoldTrim.trim(raw.mesh(), moved.turned(), () -> field.targetAnywhere()::miss);
        }
        if (trimmed == null) {
            return null;
        }
        LabelledSheet sheet =
                new LabelledSheet(trimmed.mesh(), labels(moved, regions, trimmed.source()), trimmed.given());
        Defects torn = Defects.atEdges(sheet.mesh(), trimmed.defects());
        if (way == Way.TRIMMED_WHERE_RIGHT) {
            return contoured(sheet, torn.andOffTarget(field, WRONG_MM));
        }
        return trimmed.defects().length == 0 ? result(sheet, 0) : contoured(sheet, torn);
    }

    private Result contoured(LabelledSheet sheet, Defects defects) {
        Contouring.Result contoured = Contouring.contour(sheet, regions, defects, field, cellMm);
        return contoured == null ? null : result(contoured.sheet(), contoured.cellMm());
    }

    private Result result(LabelledSheet sheet, double gridMm) {
        return new Result(sheet.mesh(), sheet.labels(), atOffset(sheet, moved, field, toleranceMm), folds, gridMm,
                place(), field);
    }

    /** Which vertices are given ones whose triangles all lie at the offset. */
    private static boolean[] atOffset(
            LabelledSheet sheet, MovedSurface moved, OffsetField field, double toleranceMm) {
        int[] given = sheet.given();
        boolean[] suspect = new boolean[given.length];
        for (int v = 0; v < given.length; v++) {
            suspect[v] = given[v] < 0 || moved.suspect()[given[v]];
        }
        boolean[] off = OffTarget.vertices(sheet, suspect, field, toleranceMm);
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
     * Contours finely where a surface in one piece still misses the offset or crosses itself.
     *
     * @param labels region of each triangle
     * @param off which triangles miss
     * @param crossing triangles that cross
     * @param sheetRegions region of each triangle of the field's sheet
     * @param cellMm grid size
     * @return null if there is no such triangle, or nothing could be done
     */
    public static Result refine(TriangleMesh surface, int[] labels, boolean[] off, int[] crossing, byte[] sheetRegions,
            OffsetField field, double toleranceMm, double cellMm) {
        Defects defects = Defects.offTarget(surface, off, crossing, field, toleranceMm);
        if (defects.isNone()) {
            return null;
        }
        Contouring.Result contoured = Contouring.contour(
                new LabelledSheet(surface, labels, identity(surface.vertexCount())), sheetRegions, defects, field,
                cellMm);
        if (contoured == null) {
            return null;
        }
        LabelledSheet sheet = contoured.sheet();
        boolean[] missed = OffTarget.corners(surface, off);
        boolean[] kept = new boolean[sheet.given().length];
        for (int v = 0; v < kept.length; v++) {
            // What missed and was left as it was must be looked at again.
            kept[v] = sheet.given()[v] >= 0 && !missed[sheet.given()[v]];
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
