package layupmold.service.kit;

import com.github.mustachejava.DefaultMustacheFactory;
import com.github.mustachejava.Mustache;
import com.openhtmltopdf.pdfboxout.PdfBoxRenderer;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.util.XRLog;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.logging.Level;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;

/** A page from a template beside this class, as self-contained XHTML and as PDF of the same content. */
final class HtmlPage {

    static {
        // The renderer has its own log and tells every stylesheet.
        XRLog.listRegisteredLoggers().forEach(logger -> XRLog.setLevel(logger, Level.WARNING));
    }

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
        try (PdfBoxRenderer renderer = builder.buildPdfRenderer()) {
            renderer.createPDFWithoutClosing();
            // Neither the time nor chance may show: the same page gives the same bytes.
            PDDocument document = renderer.getPdfDocument();
            document.getDocumentInformation().getCOSObject().removeItem(COSName.CREATION_DATE);
            document.setDocumentId(0L);
            document.save(out);
        } catch (IOException e) {
            throw new UncheckedIOException("cannot lay out the page", e);
        }
        return out.toByteArray();
    }
}
