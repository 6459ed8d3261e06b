package layupmold.geometry.render;

/**
 * A picture that belongs to every mold.
 *
 * @param name short and stable, lower case letters and hyphens; also its file's name without ending
 * @param caption one sentence that says what it shows, for those who cannot see it too
 * @param scene what it is drawn from
 */
public record Picture(String name, String caption, Scene scene) {

    /** The PNG file. */
    public byte[] toPng() {
        return PngWriter.toBytes(Renderer.render(scene));
    }
}
