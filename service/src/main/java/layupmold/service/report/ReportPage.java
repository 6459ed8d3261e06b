package layupmold.service.report;

import java.util.List;
import java.util.Locale;

/**
 * What the report page says, ready for its template.
 *
 * @param title name of the part or of the recipe
 * @param verdict the answer to "will this mold work"
 * @param keyFigures the few numbers wanted first
 * @param problems warnings and errors, gravest first
 * @param notes findings that ask for nothing
 * @param groups all figures
 * @param pictures in order
 * @param histograms in order
 * @param view what the interactive view shows
 * @param cautions safety, as short paragraphs
 */
public record ReportPage(
        String title,
        Verdict verdict,
        List<Figure> keyFigures,
        List<FindingLine> problems,
        List<FindingLine> notes,
        List<FigureGroup> groups,
        List<EmbeddedPicture> pictures,
        List<HistogramChart> histograms,
        View view,
        List<Caution> cautions) {

    public ReportPage {
        keyFigures = List.copyOf(keyFigures);
        problems = List.copyOf(problems);
        notes = List.copyOf(notes);
        groups = List.copyOf(groups);
        pictures = List.copyOf(pictures);
        histograms = List.copyOf(histograms);
        cautions = List.copyOf(cautions);
    }

    public boolean hasProblems() {
        return !problems.isEmpty();
    }

    public boolean hasNotes() {
        return !notes.isEmpty();
    }

    public boolean hasHistograms() {
        return !histograms.isEmpty();
    }

    /** How grave something is; also the class name the style sheet knows it by. */
    public enum Tone {
        GOOD, LOOK, BAD;

        public String css() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /**
     * @param tone colour and mark
     * @param headline a few words
     * @param sentence what to do now
     */
    public record Verdict(Tone tone, String headline, String sentence) {
    }

    /**
     * @param name what is measured
     * @param value with its unit
     * @param note limit, place or meaning; may be empty
     */
    public record Figure(String name, String value, String note) {
    }

    /** Figures that belong together. */
    public record FigureGroup(String name, List<Figure> figures) {
        public FigureGroup {
            figures = List.copyOf(figures);
        }
    }

    /**
     * @param tone how grave
     * @param message what was found
     * @param figure measured value against its limit; may be empty
     * @param place where on the part; may be empty
     * @param advice what to do; may be empty
     * @param code stable identifier for programs
     */
    public record FindingLine(Tone tone, String message, String figure, String place, String advice, String code) {
    }

    /**
     * @param name short and stable
     * @param caption what it shows
     * @param dataUri the PNG
     * @param widthPx its width
     * @param heightPx its height
     */
    public record EmbeddedPicture(String name, String caption, String dataUri, int widthPx, int heightPx) {
    }

    /**
     * Area by value.
     *
     * @param title what is counted
     * @param unit of the values
     * @param from lower edge of the first bar
     * @param to upper edge of the last bar
     * @param areasMm2 one a bar, comma-separated numbers
     * @param limit value to mark, or an empty string
     * @param summary the same in words
     */
    public record HistogramChart(
            String title, String unit, double from, double to, String areasMm2, String limit, String summary) {
    }

    /**
     * @param glbBase64 the model
     * @param maps what it can be coloured by, the plain one first
     * @param note about simplification; may be empty
     */
    public record View(String glbBase64, List<ViewMap> maps, String note) {
        public View {
            maps = List.copyOf(maps);
        }
    }

    /**
     * @param variant the model's variant
     * @param label on the button
     * @param gradient CSS colour stops, or an empty string for no legend
     * @param ticks of the legend
     */
    public record ViewMap(String variant, String label, String gradient, List<Tick> ticks) {
        public ViewMap {
            ticks = List.copyOf(ticks);
        }
    }

    /**
     * @param percent along the legend
     * @param label with unit
     */
    public record Tick(double percent, String label) {
    }

    /** One caution. */
    public record Caution(String title, String text) {
    }
}
