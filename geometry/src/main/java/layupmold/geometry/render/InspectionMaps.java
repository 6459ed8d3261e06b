package layupmold.geometry.render;

import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.finding.Place;
import layupmold.geometry.inspect.DemoldFigures;
import layupmold.geometry.inspect.DeviationFigures;
import layupmold.geometry.inspect.FabricFigures;
import layupmold.geometry.inspect.Inspection;
import layupmold.geometry.inspect.ThicknessFigures;
import org.joml.Vector3d;

/** Shows what the inspection measured: a scale that puts the limit in the middle, and marks on the worst places. */
public final class InspectionMaps {

    private static final int MOST_MARKERS = 9;

    private InspectionMaps() {
    }

    /** Ball thickness, mm a triangle, against its limit; thin regions marked in the order of the figures. */
    static SurfaceMap thickness(ThicknessFigures figures, float[] map) {
        double high = Math.min(figures.capMm(), Math.max(4 * figures.limitMm(), figures.limitMm() + 1));
        List<Place> thin = figures.thinRegions().stream().map(region -> region.at()).toList();
        return new SurfaceMap("wall-thickness", "Thickness of the solid under each place; below the limit it prints weak",
                map, ValueScale.about(figures.limitMm(), "Wall thickness", "mm", 0, high), numbered(thin));
    }

    /** Signed deviation of the tool surface from its target, mm a triangle; the greatest one marked. */
    static SurfaceMap deviation(DeviationFigures figures, float[] map) {
        double span = Math.max(figures.toleranceMm(), figures.maxMm());
        ValueScale scale = new ValueScale("Deviation", "mm", -span, span, 0, ColourMap.DIVERGING, Double.NaN);
        return new SurfaceMap("deviation", "Tool surface against its target; positive is farther from the face", map, scale,
                figures.maxAt() == null ? List.of() : numbered(List.of(figures.maxAt())));
    }

    /** Draft, degrees a triangle, against its limit; locked regions marked in the order of the figures, deepest first. */
    static SurfaceMap draft(DemoldFigures figures, float[] map, double limitDeg) {
        List<Place> locked = figures.lockedRegions().stream().map(region -> region.at()).toList();
        double low = Math.min(-5, limitDeg - 5);
        return new SurfaceMap("draft", "Angle to the pull; at 0 a wall is upright, below it holds the part", map,
                ValueScale.about(limitDeg, "Draft", "deg", low, 90), numbered(locked));
    }

    /** Concave radius, mm a triangle, against the cloth's; bridged places marked in the order of the figures. */
    static SurfaceMap radius(FabricFigures figures, float[] map) {
        List<Place> bridged = figures.bridges().stream().map(bridge -> bridge.at()).toList();
        return new SurfaceMap("radius", "Tightest inward curve at each place; below the limit the cloth spans it", map,
                ValueScale.about(figures.clothRadiusMm(), "Concave radius", "mm", 0, figures.capMm()), numbered(bridged));
    }

    /** All maps, in the order a maker wants to see them. */
    public static List<SurfaceMap> of(Inspection inspection, double leastDraftDeg) {
        return List.of(
                draft(inspection.demold(), inspection.maps().draftDeg().get(), leastDraftDeg),
                thickness(inspection.wall(), inspection.maps().wallMm().get()),
                radius(inspection.fabric(), inspection.maps().radiusMm().get()),
                deviation(inspection.deviation(), inspection.maps().deviationMm().get()));
    }

    /** One marker a place, numbered from 1; the first few only. */
    private static List<Marker> numbered(List<Place> places) {
        List<Marker> markers = new ArrayList<>();
        for (int i = 0; i < Math.min(MOST_MARKERS, places.size()); i++) {
            markers.add(new Marker(new Vector3d(places.get(i).x(), places.get(i).y(), places.get(i).z()), Integer.toString(i + 1)));
        }
        return markers;
    }
}
