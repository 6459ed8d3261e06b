package layupmold.geometry.recipe;

/**
 * What makes the tool surface a printable solid.
 *
 * @param kind block or shell
 * @param wallMm least wall thickness anywhere
 */
public record BodySpec(Kind kind, double wallMm) {

    /** Form of the body. */
    public enum Kind {
        /** Flat base, filled up to the tool surface; prints without supports. */
        BLOCK,
        /** Even wall under the tool surface, standing on feet. */
        SHELL
    }

    public BodySpec {
        Limits.inRange("wallMm", wallMm, 0.4, 50);
    }

    /** A block with at least 3 mm of wall. */
    public static BodySpec defaults() {
        return new BodySpec(Kind.BLOCK, 3);
    }
}
