package layupmold.geometry.render;

import java.util.List;

/**
 * Something measured all over the finished mold, to be shown on it.
 *
 * @param name short and stable, lower case letters and hyphens ("wall-thickness")
 * @param explanation one line for the maker
 * @param values one a triangle of the mold, in the scale's unit; NaN where it was not measured
 * @param scale its colours and title
 * @param markers places that findings speak of, mold frame
 */
public record SurfaceMap(String name, String explanation, float[] values, ValueScale scale, List<Marker> markers) {

    public SurfaceMap {
        markers = List.copyOf(markers);
    }

    /** For a file that viewers can switch maps in. */
    public MapLayer toLayer(CoarseMesh on) {
        return MapLayer.ofValues(scale.title(), on.values(values), scale);
    }
}
