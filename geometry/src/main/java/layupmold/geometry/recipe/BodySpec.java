package layupmold.geometry.recipe;

import java.util.Objects;

/**
 * What makes the tool surface a printable solid.
 *
 * @param kind block or shell
 * @param wallMm least wall thickness anywhere; a shell's wall is this thick
 * @param feet that a shell stands on, three or four
 * @param ribMm how far the stiffening rib along a shell's border reaches below it
 * @param notches where a wedge gets under the laminate's flange
 * @param screws holes for screws that press the laminate off
 */
public record BodySpec(Kind kind, double wallMm, int feet, double ribMm, NotchSpec notches, ScrewSpec screws) {

    /** Form of the body. */
    public enum Kind {
        /** Flat base, filled up to the tool surface; prints without supports. */
        BLOCK,
        /** Even wall under the tool surface, standing on feet; its underside prints on supports. */
        SHELL
    }

    public BodySpec {
        Objects.requireNonNull(kind);
        Objects.requireNonNull(notches);
        Objects.requireNonNull(screws);
        Limits.inRange("wallMm", wallMm, 0.4, 50);
        Limits.inRange("feet", feet, 3, 4);
        Limits.inRange("ribMm", ribMm, 1, 50);
    }

    /** A body with neither notches nor screw holes. */
    public BodySpec(Kind kind, double wallMm) {
        this(kind, wallMm, 4, 5, NotchSpec.none(), ScrewSpec.none());
    }

    /** A block with at least 3 mm of wall and two pry notches: common practice, no source. */
    public static BodySpec defaults() {
        return new BodySpec(Kind.BLOCK, 3, 4, 5, NotchSpec.defaults(), ScrewSpec.none());
    }
}
