package layupmold.geometry.kit;

import layupmold.geometry.drape.DrapedPly;
import layupmold.geometry.drape.ToolSheet;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;

/**
 * Where the tool is hardest to laminate: steep walls, corners the cloth spans, cloth near its locking angle.
 *
 * @param centre of the place, in the mold's frame
 * @param steepestDeg steepest wall there, angle from the level
 * @param gapMm largest gap under the cloth there
 * @param shearDeg most shear there
 */
public record HardPlace(Vector3d centre, double steepestDeg, double gapMm, double shearDeg) {

    private static final int GRID = 16;
    /** Share of a square's plan that the sheet must cover to be worth printing. */
    private static final double LEAST_COVER = 0.5;

    /**
     * The best square of side {@code sizeMm} in plan among a grid of {@value #GRID}² centres; the middle of the sheet
     * if no square is covered well. Each square scores the steepest wall, deepest gap and mean shear of the sheet in it,
     * each against what is hard: vertical, a gap of the cloth's own least radius, the locking angle. O(grid ·
     * triangles).
     */
    public static HardPlace find(DrapedPly ply, double sizeMm) {
        ToolSheet sheet = ply.sheet();
        double[] box = sheet.mesh().bounds();
        HardPlace best = null;
        double most = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < GRID; i++) {
            for (int j = 0; j < GRID; j++) {
                Square square = new Square(centre(box[0], box[3], i, sizeMm), centre(box[1], box[4], j, sizeMm),
                        sizeMm);
                square.look(sheet, ply);
                double score = square.score(ply);
                if (square.cover() >= LEAST_COVER && score > most + 1e-9) {
                    most = score;
                    best = square.place();
                }
            }
        }
        return best != null ? best : new HardPlace(new Vector3d((box[0] + box[3]) / 2, (box[1] + box[4]) / 2, box[2]),
                0, 0, 0);
    }

    private static double centre(double low, double high, int k, double size) {
        double room = high - low - size;
        return room <= 0 ? (low + high) / 2 : low + size / 2 + room * k / (GRID - 1);
    }

    /** What lies in one square of the plan. */
    private static final class Square {
        private final double x;
        private final double y;
        private final double half;
        private double planMm2;
        private double areaMm2;
        private double steepest = 1;
        private double gap;
        private double mostShear;
        private double shearArea;
        private double heightArea;

        Square(double x, double y, double size) {
            this.x = x;
            this.y = y;
            this.half = size / 2;
        }

        void look(ToolSheet sheet, DrapedPly ply) {
            TriangleMesh mesh = sheet.mesh();
            double[] xyz = mesh.xyz();
            int[] triangles = mesh.triangles();
            for (int t = 0; t < triangles.length; t += 3) {
                int a = 3 * triangles[t];
                int b = 3 * triangles[t + 1];
                int c = 3 * triangles[t + 2];
                if (Math.abs((xyz[a] + xyz[b] + xyz[c]) / 3 - x) > half
                        || Math.abs((xyz[a + 1] + xyz[b + 1] + xyz[c + 1]) / 3 - y) > half) {
                    continue;
                }
                Vector3d n = mesh.areaNormal(t / 3);
                double area = n.length() / 2;
                planMm2 += Math.abs(n.z) / 2;
                areaMm2 += area;
                heightArea += area * (xyz[a + 2] + xyz[b + 2] + xyz[c + 2]) / 3;
                if (area > 1e-4) {
                    steepest = Math.min(steepest, n.z / (2 * area));
                }
                for (int k = 0; k < 3; k++) {
                    gap = Math.max(gap, ply.gapMm()[triangles[t + k]]);
                }
                double shear = ply.shearDeg()[t / 3];
                if (!Double.isNaN(shear)) {
                    mostShear = Math.max(mostShear, shear);
                    shearArea += area * shear;
                }
            }
        }

        double cover() {
            return planMm2 / (4 * half * half);
        }

        double score(DrapedPly ply) {
            double gapShare = ply.spec().leastRadiusMm() > 0 ? Math.min(1, gap / ply.spec().leastRadiusMm()) : 0;
            return steepestDeg() / 90 + gapShare + (areaMm2 == 0 ? 0 : shearArea / areaMm2 / ply.spec().lockingDeg());
        }

        double steepestDeg() {
            return Math.toDegrees(Math.acos(Math.max(-1, Math.min(1, steepest))));
        }

        HardPlace place() {
            return new HardPlace(new Vector3d(x, y, heightArea / areaMm2), steepestDeg(), gap, mostShear);
        }
    }
}
