package layupmold.service.report;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

class ReportHtmlTest {

    private static ReportPage page;
    private static String html;

    @BeforeAll
    static void render() {
        page = ReportFixture.page(ReportFixture.HOSTILE, 40);
        html = new String(ReportHtml.render(page), StandardCharsets.UTF_8);
    }

    @Test
    void nothingFromOutsideBecomesMarkup() {
        assertFalse(html.contains("<script>alert"));
        assertFalse(html.contains("<img src=x"));
        assertTrue(html.contains("<h1>&lt;/script&gt;"));
    }

    @Test
    void theVerdictComesBeforeTheFindingsAndTheseBeforeTheRest() {
        int at = 0;
        for (String id : new String[] {"verdict", "problems", "view", "pictures", "figures", "notes", "cautions"}) {
            int next = html.indexOf("id=\"" + id + "\"");
            assertTrue(next > at, id + " is missing or out of order");
            at = next;
        }
        assertTrue(html.contains("2 things to look at"));
    }

    @Test
    void figuresHaveUnitsAndFindingsTheirPlaceLimitAndAdvice() {
        assertTrue(html.contains("140 × 110 × 42 mm"));
        assertTrue(html.contains("measured 0.80 mm, limit 0.50 mm"));
        assertTrue(html.contains("at (12.5, \u221230.0, 8.0) on the part as posted"));
        assertTrue(html.contains("Split the mold along the crown"));
        assertTrue(html.contains("inner face held: laminate 0.90 mm plus release layer 0.20 mm"));
    }

    @Test
    void cautionsNameEveryHazard() {
        for (String word : new String[] {"not certified protective equipment", "safety data sheet", "pot life", "respirator",
            "Sharp edges", "waxes", "local rules"}) {
            assertTrue(html.contains(word), word);
        }
    }

    /** Every address in the page's own markup is data within it. */
    @Test
    void thePageFetchesNothing() {
        String markup = html.replaceAll("(?s)<script[^>]*>.*?</script>", "");
        Matcher addresses = Pattern.compile("<[a-z-]+[^>]* (?:src|href|poster|action)=\"([^\"]{0,40})").matcher(markup);
        int found = 0;
        while (addresses.find()) {
            assertTrue(addresses.group(1).startsWith("data:image/png;base64,"), addresses.group(1));
            found++;
        }
        assertEquals(8, found, "four pictures and four maps");
        assertTrue(html.contains("default-src 'none'"));
        assertFalse(html.contains("<link"));
    }

    @Test
    void theSamePageGivesTheSameBytes() {
        assertArrayEquals(html.getBytes(StandardCharsets.UTF_8), ReportHtml.render(page));
    }
}
