package layupmold.geometry.congruence;

import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import org.joml.Matrix4d;
import org.joml.Matrix4dc;
import org.joml.Vector3d;

/**
 * A map that keeps distances: a rotation, or a reflection and a rotation, followed by a translation, mm.
 *
 * @param matrix JOML column-vector convention; its upper left 3 × 3 part is orthonormal
 */
public record Isometry(Matrix4dc matrix) {

    private static final double ORTHONORMAL_WITHIN = 1e-6;

    public Isometry {
        matrix = new Matrix4d(matrix);
        for (int i = 0; i < 3; i++) {
            for (int k = i; k < 3; k++) {
                Vector3d a = matrix.getColumn(i, new Vector3d());
                double dot = a.dot(matrix.getColumn(k, new Vector3d()));
                if (!(Math.abs(dot - (i == k ? 1 : 0)) < ORTHONORMAL_WITHIN)) {
                    throw new IllegalArgumentException("the matrix does not keep distances");
                }
            }
        }
    }

    public static Isometry identity() {
        return new Isometry(new Matrix4d());
    }

    /** The mirror image across the plane x = 0. */
    public static Isometry mirrorX() {
        return new Isometry(new Matrix4d().scaling(-1, 1, 1));
    }

    /** @param rows the matrix as 16 numbers, row by row */
    public static Isometry ofRowMajor(double[] rows) {
        Matrix4d matrix = new Matrix4d();
        for (int row = 0; row < 4; row++) {
            for (int column = 0; column < 4; column++) {
                matrix.set(column, row, rows[4 * row + column]);
            }
        }
        return new Isometry(matrix);
    }

    /** The matrix as 16 numbers, row by row. */
    public double[] toRowMajor() {
        double[] rows = new double[16];
        for (int i = 0; i < 16; i++) {
            rows[i] = matrix.get(i % 4, i / 4);
        }
        return rows;
    }

    /** True if it turns a left hand into a right one. */
    public boolean mirrors() {
        return matrix.determinant3x3() < 0;
    }

    public Vector3d apply(Vector3d point) {
        return matrix.transformPosition(point, new Vector3d());
    }

    /** Null stays null; the triangle stays. */
    public Place apply(Place place) {
        if (place == null) {
            return null;
        }
        Vector3d p = apply(place.point());
        return new Place(p.x, p.y, p.z, place.triangle());
    }

    /** The finding with its place, if it has one, moved. */
    public Finding apply(Finding finding) {
        return finding.at(apply(finding.place()));
    }

    public Vector3d applyToDirection(Vector3d direction) {
        return matrix.transformDirection(direction, new Vector3d());
    }

    public Isometry inverse() {
        return new Isometry(matrix.invertAffine(new Matrix4d()));
    }

    /** This map first, then {@code next}. */
    public Isometry then(Isometry next) {
        return new Isometry(next.matrix.mul(matrix, new Matrix4d()));
    }
}
