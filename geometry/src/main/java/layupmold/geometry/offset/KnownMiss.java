package layupmold.geometry.offset;

import layupmold.geometry.RigidTransform;
import layupmold.geometry.finding.Place;

/**
 * How far a surface is off at the most, as far as the stage that made it knows: it looks closely at every triangle it
 * makes, where a check by sampling would hit none smaller than its spacing.
 *
 * @param mm 0 or more
 * @param at where, in the surface's frame; null if {@code mm} is 0
 */
public record KnownMiss(double mm, Place at) {

    public static final KnownMiss NONE = new KnownMiss(0, null);

    /** The same with its place in another frame. */
    public KnownMiss in(RigidTransform frame) {
        return at == null ? this : new KnownMiss(mm, Place.at(frame.apply(at.point())));
    }

    KnownMiss or(KnownMiss other) {
        return other.mm > mm ? other : this;
    }
}
