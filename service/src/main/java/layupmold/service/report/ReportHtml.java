package layupmold.service.report;

import com.github.mustachejava.DefaultMustacheFactory;
import com.github.mustachejava.Mustache;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.util.Map;

/**
 * The report as one HTML file that needs nothing else: opens offline, prints on A4, turns the mold. Safe to use from
 * many threads.
 */
public final class ReportHtml {

    private static final Mustache TEMPLATE = new DefaultMustacheFactory("layupmold/service/report").compile("report.mustache");
    private static final PageAssets ASSETS = PageAssets.load();

    private ReportHtml() {
    }

    /** The page as a file, UTF-8. Everything that comes from a part, a recipe or a finding is escaped. */
    public static byte[] render(ReportPage page) {
        StringWriter html = new StringWriter(1 << 22);
        TEMPLATE.execute(html, Map.of("page", page, "assets", ASSETS));
        return html.toString().getBytes(StandardCharsets.UTF_8);
    }
}
