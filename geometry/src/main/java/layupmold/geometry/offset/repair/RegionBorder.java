package layupmold.geometry.offset.repair;

import com.carrotsearch.hppc.IntArrayList;

/** Makes the sides of grid corners on a region's border agree with the mesh kept around it. */
final class RegionBorder {

    private RegionBorder() {
    }

    /**
     * Binds the ends of every grid edge on a face between the region and its surroundings. A grid edge that the kept
     * mesh crosses more than once cannot be bound: the cells around it join the region.
     *
     * @return false if the region grew, so that everything has to be done again
     */
    static boolean bind(long[] cells, RepairRegion region, MeshClipper kept, CornerValues corners) {
        boolean complete = true;
        for (long cell : cells) {
            for (int axis = 0; axis < 3; axis++) {
                long step = CellGrid.STEP[axis];
                if (!region.contains(cell - step)) {
                    complete &= bindFace(cell, axis, region, kept, corners);
                }
                if (!region.contains(cell + step)) {
                    complete &= bindFace(cell + step, axis, region, kept, corners);
                }
            }
        }
        return complete;
    }

    private static boolean bindFace(
            long lowerCorner, int axis, RepairRegion region, MeshClipper kept, CornerValues corners) {
        int b = (axis + 1) % 3;
        int c = (axis + 2) % 3;
        return bindEdge(lowerCorner, b, region, kept, corners)
                & bindEdge(lowerCorner + CellGrid.STEP[c], b, region, kept, corners)
                & bindEdge(lowerCorner, c, region, kept, corners)
                & bindEdge(lowerCorner + CellGrid.STEP[b], c, region, kept, corners);
    }

    private static boolean bindEdge(
            long corner, int axis, RepairRegion region, MeshClipper kept, CornerValues corners) {
        IntArrayList crossings = kept.crossings.get(CellGrid.edgeKey(corner, axis));
        int count = crossings == null ? 0 : crossings.size();
        if (count > 1) {
            Contouring.growAroundCorner(region, corner, 1);
            Contouring.growAroundCorner(region, corner + CellGrid.STEP[axis], 1);
            return false;
        }
        corners.bind(corner, corner + CellGrid.STEP[axis], count == 1);
        if (count == 1) {
            corners.vote(corner, corner + CellGrid.STEP[axis], kept.rises(crossings.get(0)));
        }
        return true;
    }
}
