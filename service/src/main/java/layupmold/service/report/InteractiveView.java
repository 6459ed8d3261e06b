package layupmold.service.report;

import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import layupmold.geometry.render.CoarseMesh;
import layupmold.geometry.render.GlbWriter;
import layupmold.geometry.render.MapLayer;
import layupmold.geometry.render.MoldPictures;
import layupmold.geometry.render.SurfaceMap;
import layupmold.geometry.render.ValueScale;
import layupmold.service.report.ReportPage.Tick;
import layupmold.service.report.ReportPage.View;
import layupmold.service.report.ReportPage.ViewMap;

/**
 * The model to turn and zoom, and the legends of its maps.
 *
 * @param glb the model, simplified if the mold is heavy
 * @param maps what it can be coloured by
 * @param note about simplification; may be empty
 */
record InteractiveView(byte[] glb, List<ViewMap> maps, String note) {

    /** More would make the page slow to load and send. */
    static final int MOST_TRIANGLES = 120_000;
    private static final int GRADIENT_STOPS = 24;
    private static final int TICKS = 6;

    static InteractiveView of(MoldPictures.Subject subject) {
        CoarseMesh coarse = CoarseMesh.of(subject.solid(), MOST_TRIANGLES);
        List<MapLayer> layers = new ArrayList<>();
        List<ViewMap> maps = new ArrayList<>();
        maps.add(new ViewMap("plain", "Plain", "", List.of()));
        for (SurfaceMap map : subject.maps()) {
            layers.add(map.toLayer(coarse));
            maps.add(new ViewMap(map.scale().title(), map.scale().title(), gradient(map.scale()), ticks(map.scale())));
        }
        byte[] glb = GlbWriter.write(coarse.mesh(), layers);
        String note = coarse.cellMm() == 0 ? "" : String.format(Locale.ROOT,
                "Simplified to details of %.1f mm for viewing; the mold file is exact.", coarse.cellMm());
        return new InteractiveView(glb, maps, note);
    }

    /** For the template. */
    View toPage() {
        return new View(Base64.getEncoder().encodeToString(glb), maps, note);
    }

    private static String gradient(ValueScale scale) {
        return IntStream.rangeClosed(0, GRADIENT_STOPS)
                .mapToObj(i -> String.format(Locale.ROOT, "#%06x", scale.map().at((double) i / GRADIENT_STOPS)))
                .collect(Collectors.joining(", "));
    }

    private static List<Tick> ticks(ValueScale scale) {
        List<Tick> ticks = new ArrayList<>();
        for (double value : scale.ticks(TICKS)) {
            String unit = scale.unit().equals("deg") ? "°" : " " + scale.unit();
            ticks.add(new Tick(100 * scale.fraction(value), scale.label(value, TICKS) + unit));
        }
        return ticks;
    }
}
