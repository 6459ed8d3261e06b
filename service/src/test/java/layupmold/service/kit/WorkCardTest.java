package layupmold.service.kit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.List;
import java.util.Map;
import javax.imageio.ImageIO;
import javax.xml.parsers.DocumentBuilderFactory;
import layupmold.geometry.kit.ClothLayouts;
import layupmold.geometry.kit.KitSpec;
import layupmold.geometry.kit.LayupKit;
import layupmold.geometry.kit.LayupNeeds;
import layupmold.geometry.kit.ResinSpec;
import layupmold.geometry.kit.ShoppingList;
import layupmold.geometry.laminate.MaterialTables;
import layupmold.geometry.recipe.Recipe;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;

class WorkCardTest {

    private static final KitSpec SPEC = KitSpec.defaults();

    private static Map<String, byte[]> printed(LayupKit kit) {
        return KitPrints.ofPart(kit, ClothLayouts.of(kit.templates(), SPEC), Recipe.defaults(), SPEC).files();
    }

    private static String text(byte[] pdf) throws IOException {
        try (PDDocument document = Loader.loadPDF(pdf)) {
            return new PDFTextStripper().getText(document).replaceAll("\\s+", " ");
        }
    }

    private static int pages(byte[] pdf) throws IOException {
        try (PDDocument document = Loader.loadPDF(pdf)) {
            return document.getNumberOfPages();
        }
    }

    private static Document parse(byte[] html) throws Exception {
        DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
        factory.setFeature("http://apache.org/xml/features/nonvalidating/load-external-dtd", false);
        return factory.newDocumentBuilder().parse(new ByteArrayInputStream(html));
    }

    @Test
    void cardHasTheStepsInOrderWithThisPartsFigures() throws Exception {
        LayupKit kit = KitSamples.dome("breast shell");
        Map<String, byte[]> files = printed(kit);
        String words = text(files.get("work-card.pdf"));
        int at = words.indexOf("Steps");
        for (String step : List.of("Print", "Sand the tool", "Wax", "Cut", "Weigh and mix", "Lay", "Cure",
                "Mark the trim line", "Demold", "Trim", "Sand wet", "Finish coat", "Polish")) {
            int next = words.indexOf(step + " ", at);
            assertTrue(next > at, step + " is missing or out of order");
            at = next;
        }
        assertTrue(words.contains(String.format("%.1f g", kit.resin().coats().get(0).mixedG())));
        assertTrue(words.contains("inner face keeps the modelled size"));
        assertTrue(words.contains("not certified protective equipment"));
        int ticks = parse(files.get("work-card.html")).getElementsByTagName("span").getLength();
        assertEquals(13 + kit.templates().size() + kit.resin().coats().size(), ticks);
    }

    @Test
    void cardFitsTwoPages() throws Exception {
        byte[] pdf = WorkCard.of(KitSamples.dome("breast shell", 150), Recipe.defaults(), SPEC).pdf();
        assertTrue(pages(pdf) <= 2, pages(pdf) + " pages");
        assertTrue(text(pdf).contains("Look out for"));
    }

    @Test
    void aHostileNameStaysText() throws Exception {
        LayupKit kit = KitSamples.dome("<script>alert(1)</script> & \u0000\ud800");
        byte[] html = printed(kit).get("work-card.html");
        Document page = parse(html);
        assertEquals(0, page.getElementsByTagName("script").getLength());
        assertTrue(page.getElementsByTagName("h1").item(0).getTextContent().startsWith("<script>alert(1)</script> &"));
    }

    @Test
    void picturesAreShearMaps() throws Exception {
        Map<String, byte[]> files = printed(KitSamples.dome("crown"));
        assertEquals(1600, ImageIO.read(new ByteArrayInputStream(files.get("shear-1.png"))).getWidth());
        assertTrue(files.containsKey("shear-2.png"));
        assertTrue(files.containsKey("cut-layout-1.svg"));
    }

    @Test
    void suitListAddsUpItsParts() throws Exception {
        LayupKit a = KitSamples.dome("crown");
        LayupKit b = KitSamples.dome("breast shell", 60);
        byte[] pdf = KitPrints.ofSuit(ShoppingList.of(List.of(a, b), SPEC)).get("shopping-list.pdf");
        String words = text(pdf);
        double resin = a.resin().resinG() + b.resin().resinG();
        assertTrue(words.contains(String.format("%.0f g", Math.ceil(resin))), words);
        assertTrue(words.contains("crown, breast shell"));
        assertTrue(words.contains("210 g/m² carbon 2/2 twill"));
        assertTrue(words.contains(String.format("keep about %.0f months", SPEC.resin().shelfMonths())), words);
    }

    @Test
    void suitListSaysHowLongThePartsOwnResinKeeps() {
        LayupNeeds needs = LayupNeeds.of(KitSamples.dome("crown"), SPEC.withResin(ResinSpec.of(MaterialTables.resin("polyester"))));
        assertEquals(6, ShoppingList.of(List.of(needs), 1250, 10).resins().get(0).shelfMonths());
    }
}
