package layupmold.service.report;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;

/**
 * Style sheet and scripts that every report page carries within itself.
 *
 * @param styleSheet CSS with its fonts
 * @param viewerScript the model viewer, an ES module
 * @param chartScript the charting library
 * @param pageScript the page's own
 */
public record PageAssets(String styleSheet, String viewerScript, String chartScript, String pageScript) {

    private static final String OWN = "layupmold/service/report/";
    private static final String FONTS = "layupmold/geometry/render/AtkinsonHyperlegibleNext-";
    private static final String CHARTS = "META-INF/resources/webjars/echarts/5.3.1/dist/echarts.common.min.js";

    /** Reads everything from the class path. */
    static PageAssets load() {
        String style = fontFace("Medium", 400) + fontFace("Bold", 700) + text(OWN + "report.css");
        // The map of the viewer's sources stays behind; a browser should not look for it.
        String viewer = text(OWN + "vendor/model-viewer.min.js").replaceFirst("\n//# sourceMappingURL=.*\\s*$", "\n");
        return new PageAssets(style, viewer, text(CHARTS), text(OWN + "report.js"));
    }

    /** Only the page's own scripts run (one brings WebAssembly along), and nothing is fetched from anywhere. */
    public String contentSecurityPolicy() {
        return "default-src 'none'; script-src " + hash(viewerScript) + " " + hash(chartScript) + " " + hash(pageScript)
                + " 'wasm-unsafe-eval'; style-src 'unsafe-inline'; img-src data: blob:; font-src data:; connect-src data: blob:;"
                + " base-uri 'none'; form-action 'none'";
    }

    private static String hash(String script) {
        try {
            byte[] digest = MessageDigest.getInstance("SHA-256").digest(script.getBytes(StandardCharsets.UTF_8));
            return "'sha256-" + Base64.getEncoder().encodeToString(digest) + "'";
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException(e);
        }
    }

    private static String fontFace(String cut, int weight) {
        return "@font-face{font-family:Report;font-weight:" + weight + ";src:url(data:font/ttf;base64,"
                + Base64.getEncoder().encodeToString(bytes(FONTS + cut + ".ttf")) + ")}\n";
    }

    private static String text(String resource) {
        return new String(bytes(resource), StandardCharsets.UTF_8);
    }

    private static byte[] bytes(String resource) {
        try (InputStream in = PageAssets.class.getClassLoader().getResourceAsStream(resource)) {
            if (in == null) {
                throw new IllegalStateException("the program lacks its own file " + resource);
            }
            return in.readAllBytes();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
