package layupmold.service.kit;

import com.github.mustachejava.DefaultMustacheFactory;
import com.github.mustachejava.Mustache;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;

/** A page from a template beside this class, as self-contained XHTML and as PDF of the same content. */
final class HtmlPage {

    private final Mustache template;

    HtmlPage(String resource) {
        template = new DefaultMustacheFactory().compile(new InputStreamReader(
                HtmlPage.class.getResourceAsStream(resource), StandardCharsets.UTF_8), resource);
    }

    /** @param figures whose accessors the template names; text is escaped */
    String html(Object figures) {
        StringWriter page = new StringWriter();
        template.execute(page, figures);
        return page.toString();
    }

    /** The page laid out for paper. Nothing outside it is loaded. */
    static byte[] pdf(String html) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        PdfRendererBuilder builder = new PdfRendererBuilder();
        builder.useFastMode();
        builder.withHtmlContent(html, null);
        builder.useUriResolver((base, uri) -> uri.startsWith("data:image/png;base64,") ? uri : null);
        builder.toStream(out);
        try {
            builder.run();
        } catch (IOException e) {
            throw new UncheckedIOException("cannot lay out the page", e);
        }
        return out.toByteArray();
    }
}
