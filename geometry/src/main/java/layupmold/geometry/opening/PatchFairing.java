package layupmold.geometry.opening;

import static layupmold.geometry.opening.PatchLaplacian.addScaled;

import java.util.Arrays;
import layupmold.geometry.mesh.TriangleMesh;
import org.ejml.data.DMatrixRMaj;
import org.ejml.data.DMatrixSparseCSC;
import org.ejml.interfaces.linsol.LinearSolverSparse;
import org.ejml.sparse.FillReducing;
import org.ejml.sparse.csc.factory.LinearSolverFactory_DSCC;

/**
 * Moves the inner vertices of a patch so that it becomes smooth. With K the cotangent Laplacian and M the vertex
 * areas ({@link PatchLaplacian}), {@link #tangent} minimizes the bending energy |Kx|² / M over the patch's vertices, those
 * of the loop included, with the face's triangles around the loop held: the discrete thin plate with clamped edge, which
 * makes the patch tangent to the face. {@link #membrane} solves Kx = 0 inside: least area, angle at the loop.
 *
 * <p>Least bending flattens the middle of a deep patch. {@link #tangentCurved} therefore penalizes the difference of Kx
 * from the curvature that the loop shows, carried inwards as a harmonic function along the patch's present normals: a
 * sphere, a cylinder and a plane then bend for free. On a nearly flat patch this changes nothing, since a harmonic
 * function is orthogonal to the Laplacian of every clamped displacement.
 *
 * <p>K's weights are kept positive, and so K finds what is flat but uneven, as beside slivers of the face, bent along
 * itself; by as much as that is now, all targets are off zero. Without, the patch's vertices are drawn over each other.
 *
 * <p>Weights come from the patch as given, so a patch that moves far gains from a second round. Solved by sparse
 * Cholesky factors; about O(n^1.5) for n vertices.
 */
final class PatchFairing {

    private static final int SMOOTHING_PASSES = 8;

    private final PatchMesh patch;
    private final PatchLaplacian rows;
    private final int loopCount;
    private final int rowCount;

    private PatchFairing(PatchMesh patch, TriangleMesh face, OpeningLoop loop) {
        this.patch = patch;
        this.rows = new PatchLaplacian(patch, face, loop);
        this.loopCount = rows.loopCount;
        this.rowCount = rows.rowCount;
    }

    /** Shapes the patch tangent to the face; false if the system could not be solved. */
    static boolean tangent(PatchMesh patch, TriangleMesh face, OpeningLoop loop) {
        if (patch.vertexCount == patch.loopCount) {
            return true;
        }
        PatchFairing fairing = new PatchFairing(patch, face, loop);
        return fairing.solveThinPlate(new double[3 * fairing.rowCount]);
    }

    /** As {@link #tangent}, for a patch that already has about its shape, following the curvature around it. */
    static boolean tangentCurved(PatchMesh patch, TriangleMesh face, OpeningLoop loop) {
        if (patch.vertexCount == patch.loopCount) {
            return true;
        }
        PatchFairing fairing = new PatchFairing(patch, face, loop);
        double[] bend = fairing.bendFromLoop();
        return bend != null && fairing.solveThinPlate(bend);
    }

    /** Shapes the patch like a soap film across the loop; false if the system could not be solved. */
    static boolean membrane(PatchMesh patch, TriangleMesh face, OpeningLoop loop) {
        if (patch.vertexCount == patch.loopCount) {
            return true;
        }
        PatchFairing fairing = new PatchFairing(patch, face, loop);
        return fairing.place(fairing.harmonic(patch.xyz, fairing.rows.bentByWeights()));
    }

    /** Solves Kx = bend inside for {@code values} (three a vertex) given on the loop; null if that fails. */
    private double[] harmonic(double[] values, double[] bend) {
        int n = rowCount - loopCount;
        SymmetricColumns matrix = new SymmetricColumns(n);
        double[] right = new double[3 * n];
        for (int j = 0; j < n; j++) {
            int v = j + loopCount;
            matrix.add(j, -rows.diagonal[v]);
            addScaled(right, 3 * j, -1, bend, 3 * v);
            for (int i = rows.rowStart[v]; i < rows.rowStart[v + 1]; i++) {
                if (rows.column[i] >= loopCount) {
                    matrix.add(rows.column[i] - loopCount, -rows.weight[i]);
                } else {
                    addScaled(right, 3 * j, rows.weight[i], values, 3 * rows.column[i]);
                }
            }
            matrix.endColumn();
        }
        return solve(matrix, right);
    }

    /** By row, the part of Kx that a patch which carries on the loop's mean curvature would have. */
    private double[] bendFromLoop() {
        double[] normals = rows.rowNormals();
        double[] along = new double[loopCount];
        double[] bend = rows.exact();
        for (int v = 0; v < loopCount; v++) {
            for (int k = 0; k < 3; k++) {
                along[v] += bend[3 * v + k] * normals[3 * v + k] / rows.area[v];
            }
        }
        double[] values = new double[3 * loopCount];
        for (int pass = 0; pass < SMOOTHING_PASSES; pass++) {
            double[] before = along.clone();
            for (int v = 0; v < loopCount; v++) {
                along[v] = before[v] / 2
                        + (before[(v + 1) % loopCount] + before[(v + loopCount - 1) % loopCount]) / 4;
                values[3 * v] = along[v];
            }
        }
        double[] inside = harmonic(values, new double[3 * rowCount]);
        if (inside == null) {
            return null;
        }
        double[] target = new double[3 * rowCount];
        for (int v = 0; v < rowCount; v++) {
            double curvature = v < loopCount ? along[v] : inside[3 * (v - loopCount)];
            addScaled(target, 3 * v, curvature * rows.area[v], normals, 3 * v);
        }
        return target;
    }

    /** Minimizes |Kx - bend|² / M. */
    private boolean solveThinPlate(double[] bend) {
        double[] held = rows.heldPart();
        double[] bent = rows.bentByWeights();
        for (int i = 0; i < held.length; i++) {
            held[i] -= bend[i] + bent[i];
        }
        int n = rowCount - loopCount;
        SymmetricColumns matrix = new SymmetricColumns(n);
        double[] right = new double[3 * n];
        for (int j = 0; j < n; j++) {
            int v = j + loopCount;
            addRow(matrix, v, rows.diagonal[v] / rows.area[v]);
            addScaled(right, 3 * j, -rows.diagonal[v] / rows.area[v], held, 3 * v);
            for (int i = rows.rowStart[v]; i < rows.rowStart[v + 1]; i++) {
                int u = rows.column[i];
                // K is symmetric: the weight of v in row u is that of u in row v.
                addRow(matrix, u, rows.weight[i] / rows.area[u]);
                addScaled(right, 3 * j, -rows.weight[i] / rows.area[u], held, 3 * u);
            }
            matrix.endColumn();
        }
        return place(solve(matrix, right));
    }

    private void addRow(SymmetricColumns matrix, int row, double factor) {
        if (row >= loopCount) {
            matrix.add(row - loopCount, factor * rows.diagonal[row]);
        }
        for (int i = rows.rowStart[row]; i < rows.rowStart[row + 1]; i++) {
            if (rows.column[i] >= loopCount && rows.column[i] < rowCount) {
                matrix.add(rows.column[i] - loopCount, factor * rows.weight[i]);
            }
        }
    }

    private double[] solve(SymmetricColumns matrix, double[] right) {
        int n = rowCount - loopCount;
        int[] order = DissectionOrder.of(Arrays.copyOfRange(rows.xyz, 3 * loopCount, 3 * rowCount), matrix.start(),
                matrix.rows());
        DMatrixRMaj b = new DMatrixRMaj(n, 3);
        DMatrixRMaj x = new DMatrixRMaj(n, 3);
        for (int i = 0; i < n; i++) {
            System.arraycopy(right, 3 * order[i], b.data, 3 * i, 3);
        }
        LinearSolverSparse<DMatrixSparseCSC, DMatrixRMaj> solver =
                LinearSolverFactory_DSCC.cholesky(FillReducing.NONE);
        if (!solver.setA(matrix.permuted(order))) {
            return null;
        }
        solver.solve(b, x);
        double[] solution = new double[3 * n];
        for (int i = 0; i < n; i++) {
            System.arraycopy(x.data, 3 * i, solution, 3 * order[i], 3);
        }
        return solution;
    }

    /** Moves the patch's inner vertices; false if there is no finite solution. */
    private boolean place(double[] solution) {
        if (solution == null || !Arrays.stream(solution).allMatch(Double::isFinite)) {
            return false;
        }
        System.arraycopy(solution, 0, patch.xyz, 3 * loopCount, solution.length);
        return true;
    }
}
