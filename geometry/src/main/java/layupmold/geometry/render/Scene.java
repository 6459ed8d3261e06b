package layupmold.geometry.render;

import java.util.List;

/**
 * Everything a picture is made from.
 *
 * @param title heading, or an empty string
 * @param subtitle a line below it, or an empty string
 * @param items meshes, all in one frame, mm; at least one triangle in all
 * @param camera where from
 * @param lighting how lit
 * @param lines whether outlines and creases are drawn
 * @param ground whether the scene stands on level ground (z up) and throws a soft shadow on it
 * @param markers numbered places
 * @param legend meaning of the colours
 * @param size of the picture
 */
public record Scene(
        String title,
        String subtitle,
        List<Item> items,
        Camera camera,
        Lighting lighting,
        boolean lines,
        boolean ground,
        List<Marker> markers,
        Legend legend,
        Size size) {

    public Scene {
        items = List.copyOf(items);
        markers = List.copyOf(markers);
        if (items.stream().allMatch(item -> item.mesh().triangleCount() == 0)) {
            throw new IllegalArgumentException("a scene needs at least one triangle");
        }
    }

    /** A lit scene without ground, markers or legend, 1600 × 1200. */
    public static Scene of(String title, String subtitle, Camera camera, Item... items) {
        return new Scene(title, subtitle, List.of(items), camera, Lighting.STUDIO, true, false, List.of(),
                new Legend.None(), Size.STANDARD);
    }

    /** The same on ground. */
    public Scene onGround() {
        return new Scene(title, subtitle, items, camera, lighting, lines, true, markers, legend, size);
    }

    /** The same with flat light and a legend: a map. */
    public Scene asMap(Legend of) {
        return new Scene(title, subtitle, items, camera, Lighting.MAP, lines, ground, markers, of, size);
    }

    /** The same with a legend. */
    public Scene explainedBy(Legend of) {
        return new Scene(title, subtitle, items, camera, lighting, lines, ground, markers, of, size);
    }

    /** The same with places marked. */
    public Scene marking(List<Marker> places) {
        return new Scene(title, subtitle, items, camera, lighting, lines, ground, places, legend, size);
    }

    /** The same without outlines and creases. */
    public Scene withoutLines() {
        return new Scene(title, subtitle, items, camera, lighting, false, ground, markers, legend, size);
    }

    /** The same in another size. */
    public Scene sized(int widthPx, int heightPx) {
        return new Scene(title, subtitle, items, camera, lighting, lines, ground, markers, legend,
                new Size(widthPx, heightPx));
    }

    /**
     * @param widthPx 16 to 4096
     * @param heightPx 16 to 4096
     */
    public record Size(int widthPx, int heightPx) {

        public static final Size STANDARD = new Size(1600, 1200);

        public Size {
            if (widthPx < 16 || heightPx < 16 || widthPx > 4096 || heightPx > 4096) {
                throw new IllegalArgumentException("a picture is 16 to 4096 pixels wide and high");
            }
        }
    }
}
