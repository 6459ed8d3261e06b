package layupmold.service.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.contentstream.PDFStreamEngine;
import org.apache.pdfbox.contentstream.operator.DrawObject;
import org.apache.pdfbox.contentstream.operator.Operator;
import org.apache.pdfbox.contentstream.operator.state.Concatenate;
import org.apache.pdfbox.contentstream.operator.state.Restore;
import org.apache.pdfbox.contentstream.operator.state.Save;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.graphics.image.PDImageXObject;
import org.apache.pdfbox.text.PDFTextStripper;
import org.apache.pdfbox.util.Matrix;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** The report page in a real Chromium without network: the view loads, maps switch, nothing fails, it prints whole. */
class ReportInBrowserTest {

    private static final Path FOLDER = Path.of("target", "report-in-browser").toAbsolutePath();
    private static ReportPage page;
    private static BrowserRun run;

    @BeforeAll
    static void open() throws Exception {
        Files.createDirectories(FOLDER);
        page = ReportFixture.page("Heron breast shell", 80);
        Path html = FOLDER.resolve("report.html");
        Files.write(html, ReportHtml.render(page));
        run = BrowserRun.of(html, FOLDER);
    }

    @Test
    void nothingFailsInTheConsoleAndNothingIsRequested() {
        assertEquals(List.of(), run.values("console"));
        assertEquals(List.of(), run.values("request"));
        assertEquals(List.of(), run.values("failed"));
    }

    @Test
    void everyMapShowsADifferentPictureAndItsLegend() {
        assertEquals(List.of("plain|Draft|Wall thickness|Concave radius|Deviation"), run.values("variants"));
        assertEquals(List.of("plain", "Draft", "Wall thickness", "Concave radius", "Deviation"), run.values("variant"));
        assertEquals(List.of("0", "1", "1", "1", "1"), run.values("legends"));
        List<String> shots = run.values("shot").stream().map(shot -> shot.split(" ")[1]).toList();
        assertEquals(6, new HashSet<>(shots).size(), "plain, four maps and the turned view all differ");
    }

    @Test
    void theModelTurnsAndThePageFitsItsWindow() {
        assertEquals(List.of("true"), run.values("turned"));
        assertEquals(List.of("true"), run.values("fits"));
        assertEquals(List.of("true"), run.values("phone"));
    }

    @Test
    void everyHistogramHasABarForEveryArea() {
        int areas = page.histograms().stream().mapToInt(chart -> chart.areasMm2().split(",").length).sum();
        assertEquals(List.of(String.valueOf(areas)), run.values("bars"));
        assertTrue(Integer.parseInt(run.values("plotHeight").get(0)) > 200);
    }

    @Test
    void itPrintsOnWholePagesOfA4() throws IOException {
        try (PDDocument pdf = Loader.loadPDF(FOLDER.resolve("report.pdf").toFile())) {
            assertTrue(pdf.getNumberOfPages() >= 2 && pdf.getNumberOfPages() <= 8, "pages: " + pdf.getNumberOfPages());
            List<String> cut = new ArrayList<>();
            int pictures = 0;
            for (PDPage page : pdf.getPages()) {
                // ISO 216 A4: 210 × 297 mm.
                assertEquals(210 / 25.4 * 72, page.getMediaBox().getWidth(), 1);
                assertEquals(297 / 25.4 * 72, page.getMediaBox().getHeight(), 1);
                PicturePlaces places = new PicturePlaces();
                places.processPage(page);
                pictures += places.found;
                cut.addAll(places.cut);
            }
            assertEquals(8, pictures, "four pictures and four maps");
            assertEquals(List.of(), cut, "pictures that a page cuts off");
            // Chromium may break a line anywhere between words.
            String text = new PDFTextStripper().getText(pdf).replaceAll("\\s+", " ");
            for (String words : List.of("things to look at", "Split the mold along the crown", "Wall thickness", "Pull direction",
                    "Not protective equipment", "Everything here was measured")) {
                assertTrue(text.contains(words), words + " is missing on paper");
            }
        }
    }

    /** Finds images as large as ours and whether the page holds them whole. */
    private static final class PicturePlaces extends PDFStreamEngine {

        private int found;
        private final List<String> cut = new ArrayList<>();

        PicturePlaces() {
            addOperator(new Concatenate(this));
            addOperator(new Save(this));
            addOperator(new Restore(this));
            addOperator(new DrawObject(this));
        }

        @Override
        protected void processOperator(Operator operator, List<COSBase> operands) throws IOException {
            if (operator.getName().equals("Do")
                    && getResources().getXObject((COSName) operands.get(0)) instanceof PDImageXObject image
                    && image.getWidth() >= 400) {
                Matrix place = getGraphicsState().getCurrentTransformationMatrix();
                float low = Math.min(place.getTranslateY(), place.getTranslateY() + place.getScalingFactorY());
                float high = Math.max(place.getTranslateY(), place.getTranslateY() + place.getScalingFactorY());
                found++;
                if (low < 0 || high > getCurrentPage().getMediaBox().getHeight() + 1) {
                    cut.add(place.toString());
                }
            } else {
                super.processOperator(operator, operands);
            }
        }
    }
}
