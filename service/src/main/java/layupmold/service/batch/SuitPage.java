package layupmold.service.batch;

import com.github.mustachejava.DefaultMustacheFactory;
import com.github.mustachejava.Mustache;
import java.io.StringWriter;
import java.util.List;
import java.util.Locale;
import layupmold.api.batch.AttentionNeed;
import layupmold.api.batch.LikenessKind;
import layupmold.api.batch.SuitSummary;
import layupmold.api.batch.SuitSummaryPart;
import layupmold.api.mold.MoldStatus;

/**
 * A suit's summary for people: one page that fetches nothing and prints on A4.
 *
 * @param title of the suit
 * @param verdict in one sentence
 * @param tone good, look or bad
 */
record SuitPage(String title, String verdict, String tone, List<Figure> figures, List<AttentionNeed> attention,
        List<Row> rows, List<String> basis) {

    private static final Mustache PAGE = new DefaultMustacheFactory("layupmold/service/batch").compile("suit.mustache");

    record Figure(String name, String value, String note) {
    }

    record Row(String name, String quantity, String status, String likeness, String mold, String size, String filament,
            String hours, String cloth, String resin, String warnings) {
    }

    static String html(SuitSummary summary) {
        StringWriter page = new StringWriter();
        PAGE.execute(page, of(summary));
        return page.toString();
    }

    private static SuitPage of(SuitSummary s) {
        long without = s.parts().stream().filter(part -> part.status().isFinal() && part.status() != MoldStatus.DONE).count();
        long open = s.parts().stream().filter(part -> !part.status().isFinal()).count();
        long looks = s.attention().stream().map(AttentionNeed::part).distinct().count();
        String verdict = open > 0 ? open + " of " + s.parts().size() + " parts are still being made."
                : without > 0 ? without + " of " + s.parts().size() + " parts have no mold."
                : looks > 0 ? "All molds are made; " + looks + " parts need a look." : "All molds are made.";
        String tone = open > 0 ? "look" : without > 0 ? "bad" : looks > 0 ? "look" : "good";
        double filament = s.filament().stream().mapToDouble(need -> need.massG()).sum();
        List<Figure> figures = List.of(
                new Figure("Pieces", String.valueOf(s.pieces()), s.molds() + " molds to print"),
                new Figure("Filament", grams(filament), String.join(", ", s.filament().stream()
                        .map(need -> need.material().name() + " " + grams(need.massG())).toList())),
                new Figure("Printing", text("%.1f h", s.printHours()), "one mold after the other"),
                new Figure("Cloth", text("%.2f m²", s.cloths().stream().mapToDouble(c -> c.areaM2()).sum()),
                        String.join(", ", s.cloths().stream().map(c -> text("%s %.0f g/m²: %.2f m²",
                                word(c.weave().name()), c.arealWeightGsm(), c.areaM2())).toList())),
                new Figure("Resin", grams(s.resinG()), "and " + grams(s.hardenerG()) + " hardener"));
        return new SuitPage(s.title() == null ? "Suit" : s.title(), verdict, tone, figures, s.attention(),
                s.parts().stream().map(SuitPage::row).toList(), s.basis());
    }

    private static Row row(SuitSummaryPart part) {
        String likeness = part.likeness() == null ? ""
                : (part.likeness().kind() == LikenessKind.MIRRORED ? "mirror image of " : "same as ") + part.likeness().part();
        boolean done = part.status() == MoldStatus.DONE;
        String size = part.sizeMm() == null ? "" : text("%.0f × %.0f × %.0f mm", part.sizeMm().get(0),
                part.sizeMm().get(1), part.sizeMm().get(2));
        return new Row(part.name(), String.valueOf(part.quantity()), part.status().name().toLowerCase(Locale.ROOT),
                likeness, done ? part.mold() + "/report.html" : null, size,
                part.printed() ? grams(part.filamentG()) : done ? "shared" : "",
                part.printed() ? text("%.1f h", part.printHours()) : "", done ? text("%.2f m²", part.clothM2()) : "",
                done ? grams(part.resinG()) : "", part.warnings() == 0 ? "" : String.valueOf(part.warnings()));
    }

    private static String word(String name) {
        return name.toLowerCase(Locale.ROOT).replace('_', ' ');
    }

    private static String grams(double g) {
        return g >= 1000 ? text("%.2f kg", g / 1000) : text("%.0f g", g);
    }

    private static String text(String format, Object... figures) {
        return String.format(Locale.ROOT, format, figures);
    }
}
