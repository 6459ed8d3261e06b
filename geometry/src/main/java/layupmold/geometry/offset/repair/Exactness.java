package layupmold.geometry.offset.repair;

import layupmold.geometry.MoldRegion;

/** How exactly regions of the offset surface must lie where they should. */
final class Exactness {

    /** What the flange moulds is trimmed off: it may be five times as far off as what stays on the part. */
    private static final double FLANGE = 0.2;

    private Exactness() {
    }

    /** @return how much a miss counts in a region, up to 1 */
    static double weight(int region) {
        return MoldRegion.of((byte) region).isCopied() ? 1 : FLANGE;
    }
}
