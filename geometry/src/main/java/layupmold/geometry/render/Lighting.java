package layupmold.geometry.render;

/**
 * How strongly a scene is lit from where. Shares add up to about one on a surface that faces the key light.
 *
 * @param sky even light, stronger from above
 * @param key from the upper left behind the camera
 * @param fill from the right
 * @param gloss of the highlight
 * @param depthCue share of the darkening of hollows that is applied, 0 to 1
 */
public record Lighting(double sky, double key, double fill, double gloss, double depthCue) {

    /** For shape. */
    public static final Lighting STUDIO = new Lighting(0.42, 0.64, 0.18, 0.05, 1);

    /** For maps: flat enough that a colour can be read off against its legend. */
    public static final Lighting MAP = new Lighting(0.72, 0.26, 0.06, 0, 0.45);
}
