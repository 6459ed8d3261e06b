package layupmold.geometry.render;

import java.util.Arrays;

/**
 * A map on a mesh, ready for a texture: where on a row of colours each triangle falls.
 *
 * @param name for people; letters, digits, spaces and hyphens
 * @param fractions one a triangle, 0 to 1 along {@code colours}; NaN where there is no value
 * @param stepped whether neighbouring triangles keep their own colour instead of blending into each other
 * @param colours 0xRRGGBB, first to last
 */
public record MapLayer(String name, float[] fractions, boolean stepped, int[] colours) {

    public MapLayer {
        if (!name.matches("[A-Za-z0-9 -]{1,60}")) {
            throw new IllegalArgumentException("a layer's name is 1 to 60 letters, digits, spaces or hyphens");
        }
    }

    /** A smooth map of measured values, one a triangle. */
    public static MapLayer ofValues(String name, float[] values, ValueScale scale) {
        float[] fractions = new float[values.length];
        for (int t = 0; t < values.length; t++) {
            fractions[t] = (float) scale.fraction(values[t]);
        }
        return new MapLayer(name, fractions, false, scale.map().table());
    }

    /** A map of named pieces: {@code region[t]} picks from the palette. */
    public static MapLayer ofRegions(String name, byte[] region, int[] palette) {
        float[] fractions = new float[region.length];
        for (int t = 0; t < region.length; t++) {
            fractions[t] = (region[t] + 0.5f) / palette.length;
        }
        return new MapLayer(name, fractions, true, Arrays.copyOf(palette, palette.length));
    }

    /** Triangles with different keys may not share a vertex's texture coordinate. */
    int key(int triangle) {
        float fraction = fractions[triangle];
        return Float.isNaN(fraction) ? -1 : stepped ? (int) (fraction * colours.length) : 0;
    }
}
