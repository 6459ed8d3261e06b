package layupmold.geometry.render;

import java.util.List;

/** What the colours of a picture mean. */
public sealed interface Legend {

    /** No legend. */
    record None() implements Legend {
    }

    /** A colour bar with ticks. */
    record Scale(ValueScale scale) implements Legend {
    }

    /** Named colours in a row. */
    record Key(List<Swatch> swatches) implements Legend {
        public Key {
            swatches = List.copyOf(swatches);
        }
    }

    /**
     * @param name for people
     * @param rgb 0xRRGGBB
     */
    record Swatch(String name, int rgb) {
    }
}
