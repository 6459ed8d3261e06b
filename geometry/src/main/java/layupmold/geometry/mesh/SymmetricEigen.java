package layupmold.geometry.mesh;

import org.joml.Matrix3d;
import org.joml.Vector3d;

/** Eigenvectors of a symmetric 3×3 matrix by cyclic Jacobi rotations (Golub and Van Loan, "Matrix Computations"). */
public final class SymmetricEigen {

    private static final int SWEEPS = 30;

    private SymmetricEigen() {
    }

    /** Adds {@code weight} times the matrix v vᵀ to {@code m}. */
    public static void addSquare(double[][] m, Vector3d v, double weight) {
        for (int r = 0; r < 3; r++) {
            for (int c = 0; c < 3; c++) {
                m[r][c] += weight * v.get(r) * v.get(c);
            }
        }
    }

    /** Unit eigenvectors as columns, in no particular order; {@code m} is overwritten: its diagonal holds the eigenvalues. */
    public static Matrix3d vectors(double[][] m) {
        double[][] v = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
        for (int sweep = 0; sweep < SWEEPS; sweep++) {
            double off = Math.abs(m[0][1]) + Math.abs(m[0][2]) + Math.abs(m[1][2]);
            if (off <= 1e-15 * (Math.abs(m[0][0]) + Math.abs(m[1][1]) + Math.abs(m[2][2]))) {
                break;
            }
            rotate(m, v, 0, 1);
            rotate(m, v, 0, 2);
            rotate(m, v, 1, 2);
        }
        return new Matrix3d(v[0][0], v[1][0], v[2][0], v[0][1], v[1][1], v[2][1], v[0][2], v[1][2], v[2][2]);
    }

    private static void rotate(double[][] m, double[][] v, int p, int q) {
        if (m[p][q] == 0) {
            return;
        }
        double theta = (m[q][q] - m[p][p]) / (2 * m[p][q]);
        double t = (theta >= 0 ? 1 : -1) / (Math.abs(theta) + Math.sqrt(theta * theta + 1));
        double c = 1 / Math.sqrt(t * t + 1);
        double s = t * c;
        for (int k = 0; k < 3; k++) {
            double a = m[k][p];
            double b = m[k][q];
            m[k][p] = c * a - s * b;
            m[k][q] = s * a + c * b;
        }
        for (int k = 0; k < 3; k++) {
            double a = m[p][k];
            double b = m[q][k];
            m[p][k] = c * a - s * b;
            m[q][k] = s * a + c * b;
        }
        for (int k = 0; k < 3; k++) {
            double a = v[k][p];
            double b = v[k][q];
            v[k][p] = c * a - s * b;
            v[k][q] = s * a + c * b;
        }
    }
}
