package layupmold.geometry.body;

import layupmold.geometry.MoldRegion;
import layupmold.geometry.delaunay.ConstrainedDelaunay;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.LabelledMeshBuilder;
import layupmold.geometry.offset.OffsetSurface;

/**
 * Closes the offset surface to a block: upright sides down from the outline to a flat base. Prints without supports as
 * long as the tool surface has no overhang of its own. O(n) and the base's triangulation.
 */
final class BlockBody {

    private BlockBody() {
    }

    /**
     * @param wallMm what is left, at the least, between the lowest point of the surface and the bed
     * @return the closed solid in the surface's frame, before placement
     */
    static LabelledMeshBuilder close(OffsetSurface surface, double wallMm, CoordinateLattice lattice) {
        double[] xyz = surface.mesh().xyz();
        double lowest = xyz[2];
        for (int i = 2; i < xyz.length; i += 3) {
            lowest = Math.min(lowest, xyz[i]);
        }
        double base = lattice.below(lowest - wallMm);
        LabelledMeshBuilder solid = new LabelledMeshBuilder(surface.mesh(), surface.regions());
        int[] top = surface.outline();
        int n = top.length;
        int[] bottom = new int[n];
        int[] ring = new int[n];
        double[] xy = new double[2 * n];
        for (int i = 0; i < n; i++) {
            xy[2 * i] = solid.x(top[i]);
            xy[2 * i + 1] = solid.y(top[i]);
            bottom[i] = solid.addVertex(xy[2 * i], xy[2 * i + 1], base);
            ring[i] = i;
        }
        byte side = (byte) MoldRegion.SIDE.ordinal();
        for (int i = 0; i < n; i++) {
            int k = (i + 1) % n;
            solid.addTriangle(bottom[i], bottom[k], top[k], side);
            solid.addTriangle(bottom[i], top[k], top[i], side);
        }
        int[] floor = ConstrainedDelaunay.polygon(xy, new int[][] {ring});
        for (int i = 0; i < floor.length; i += 3) {
            solid.addTriangle(bottom[floor[i]], bottom[floor[i + 2]], bottom[floor[i + 1]],
                    (byte) MoldRegion.BASE.ordinal());
        }
        return solid;
    }
}
