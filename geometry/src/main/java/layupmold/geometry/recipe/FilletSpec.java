package layupmold.geometry.recipe;

/**
 * What becomes of corners that are too tight for the cloth.
 *
 * @param fill whether they are filled; else they are reported only
 * @param radiusMm least concave radius of the tool surface, mm; null for the least that the cloth follows
 */
public record FilletSpec(boolean fill, Double radiusMm) {

    public FilletSpec {
        if (radiusMm != null) {
            Limits.inRange("radiusMm", radiusMm, 0.2, 50);
        }
    }

    /** Reported only. */
    public static FilletSpec none() {
        return new FilletSpec(false, null);
    }
}
