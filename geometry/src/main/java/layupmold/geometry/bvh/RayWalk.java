package layupmold.geometry.bvh;

/** Walks of rays through a hierarchy; see {@link TriangleBvh}. */
final class RayWalk {

    private RayWalk() {
    }

    static void firstHit(TriangleBvh bvh, double ox, double oy, double oz, double dx, double dy, double dz,
            double tMin, double tMax, int ignoredTriangle, RayHit answer) {
        answer.triangle = -1;
        // A box that is missed is entered at infinity, which must be beyond the limit.
        answer.t = Math.min(tMax, Double.MAX_VALUE);
        if (bvh.order.length == 0) {
            return;
        }
        double ix = 1 / dx;
        double iy = 1 / dy;
        double iz = 1 / dz;
        int[] stack = new int[TriangleBvh.STACK];
        double[] entered = new double[TriangleBvh.STACK];
        int size = 1;
        entered[0] = entry(bvh.boxes, 0, ox, oy, oz, ix, iy, iz, tMin, answer.t);
        while (size > 0) {
            int node = stack[--size];
            if (entered[size] > answer.t) {
                continue;
            }
            if (node >= bvh.leafCount - 1) {
                int leaf = node - bvh.leafCount + 1;
                for (int i = bvh.leafStart(leaf); i < bvh.leafStart(leaf + 1); i++) {
                    if (bvh.order[i] != ignoredTriangle) {
                        RayTriangle.intersect(bvh.ordered, 9 * i, 9 * i + 3, 9 * i + 6, bvh.order[i],
                                ox, oy, oz, dx, dy, dz, tMin, answer);
                    }
                }
                continue;
            }
            int left = 2 * node + 1;
            double eLeft = entry(bvh.boxes, left, ox, oy, oz, ix, iy, iz, tMin, answer.t);
            double eRight = entry(bvh.boxes, left + 1, ox, oy, oz, ix, iy, iz, tMin, answer.t);
            boolean leftFirst = eLeft <= eRight;
            double far = leftFirst ? eRight : eLeft;
            if (far <= answer.t) {
                stack[size] = leftFirst ? left + 1 : left;
                entered[size++] = far;
            }
            double near = leftFirst ? eLeft : eRight;
            if (near <= answer.t) {
                stack[size] = leftFirst ? left : left + 1;
                entered[size++] = near;
            }
        }
    }

    static boolean isHit(TriangleBvh bvh, double ox, double oy, double oz, double dx, double dy, double dz, double tMin,
            int ignoredTriangle) {
        if (bvh.order.length == 0) {
            return false;
        }
        RayHit hit = new RayHit();
        hit.triangle = -1;
        hit.t = Double.MAX_VALUE;
        double ix = 1 / dx;
        double iy = 1 / dy;
        double iz = 1 / dz;
        int[] stack = new int[TriangleBvh.STACK];
        int size = 1;
        while (size > 0) {
            int node = stack[--size];
            if (entry(bvh.boxes, node, ox, oy, oz, ix, iy, iz, tMin, Double.MAX_VALUE) == Double.POSITIVE_INFINITY) {
                continue;
            }
            if (node < bvh.leafCount - 1) {
                stack[size++] = 2 * node + 2;
                stack[size++] = 2 * node + 1;
                continue;
            }
            int leaf = node - bvh.leafCount + 1;
            for (int i = bvh.leafStart(leaf); i < bvh.leafStart(leaf + 1); i++) {
                if (bvh.order[i] != ignoredTriangle) {
                    RayTriangle.intersect(bvh.ordered, 9 * i, 9 * i + 3, 9 * i + 6, bvh.order[i],
                            ox, oy, oz, dx, dy, dz, tMin, hit);
                }
            }
            if (hit.triangle >= 0) {
                return true;
            }
        }
        return false;
    }

    /**
     * Where the ray enters the node's box, or infinity if it misses it within (tMin, tMax). Along an axis at right angles
     * to the ray the inverse is infinite: a box's plane through the origin then gives NaN, which no comparison takes.
     */
    private static double entry(float[] boxes, int node, double ox, double oy, double oz, double ix, double iy,
            double iz, double tMin, double tMax) {
        int b = 6 * node;
        int x = ix < 0 ? 3 : 0;
        int y = iy < 0 ? 4 : 1;
        int z = iz < 0 ? 5 : 2;
        double near = tMin;
        double far = tMax;
        double in = (boxes[b + x] - ox) * ix;
        double out = (boxes[b + 3 - x] - ox) * ix;
        near = in > near ? in : near;
        far = out < far ? out : far;
        in = (boxes[b + y] - oy) * iy;
        out = (boxes[b + 5 - y] - oy) * iy;
        near = in > near ? in : near;
        far = out < far ? out : far;
        in = (boxes[b + z] - oz) * iz;
        out = (boxes[b + 7 - z] - oz) * iz;
        near = in > near ? in : near;
        far = out < far ? out : far;
        // Widened by a few ulps: a box may be flat, and rounding must not lose a hit on its face.
        return near <= far + 4e-16 * Math.abs(far) + 1e-300 ? near : Double.POSITIVE_INFINITY;
    }
}
