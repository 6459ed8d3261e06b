package layupmold.service.kit;

import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;
import org.locationtech.jts.geom.Envelope;

/** A drawing as SVG 1.1; one user unit is one millimetre of the thing drawn. */
final class DrawingSvg {

    private static final double BORDER_MM = 2;
    private static final String SVG = "http://www.w3.org/2000/svg";

    private DrawingSvg() {
    }

    /** At full size. */
    static byte[] write(Drawing drawing, String title) {
        return write(drawing, title, 1);
    }

    /** Made small enough to be {@code widthMm} wide at most: an overview, not to be measured. */
    static byte[] overview(Drawing drawing, String title, double widthMm) {
        return write(drawing, title, Math.min(1, widthMm / drawing.box().getWidth()));
    }

    private static byte[] write(Drawing drawing, String title, double scale) {
        StringWriter text = new StringWriter();
        try {
            XMLStreamWriter xml = XMLOutputFactory.newFactory().createXMLStreamWriter(text);
            write(drawing, title, scale, xml);
            xml.close();
        } catch (XMLStreamException e) {
            throw new IllegalStateException("cannot write to a string", e);
        }
        return text.toString().getBytes(StandardCharsets.UTF_8);
    }

    private static void write(Drawing drawing, String title, double scale, XMLStreamWriter xml)
            throws XMLStreamException {
        Envelope box = drawing.box();
        box.expandBy(BORDER_MM);
        xml.writeStartDocument("UTF-8", "1.0");
        xml.writeStartElement("svg");
        xml.writeDefaultNamespace(SVG);
        xml.writeAttribute("width", mm(scale * box.getWidth()) + "mm");
        xml.writeAttribute("height", mm(scale * box.getHeight()) + "mm");
        xml.writeAttribute("viewBox", "0 0 " + mm(box.getWidth()) + " " + mm(box.getHeight()));
        xml.writeStartElement("title");
        xml.writeCharacters(title);
        xml.writeEndElement();
        for (Drawing.Stroke stroke : drawing.strokes()) {
            xml.writeEmptyElement("polyline");
            xml.writeAttribute("class", stroke.pen().name().toLowerCase(Locale.ROOT));
            xml.writeAttribute("fill", "none");
            xml.writeAttribute("stroke", String.format(Locale.ROOT, "#%06x", stroke.pen().rgb));
            xml.writeAttribute("stroke-width", mm(stroke.pen().widthMm / scale));
            if (!stroke.pen().dash.isEmpty()) {
                xml.writeAttribute("stroke-dasharray", stroke.pen().dash);
            }
            xml.writeAttribute("points", points(stroke.xy(), box));
        }
        for (Drawing.Label label : drawing.labels()) {
            xml.writeStartElement("text");
            xml.writeAttribute("x", mm(label.x() - box.getMinX()));
            xml.writeAttribute("y", mm(box.getMaxY() - label.y()));
            xml.writeAttribute("font-family", "sans-serif");
            xml.writeAttribute("font-size", mm(label.heightMm()));
            xml.writeCharacters(label.text());
            xml.writeEndElement();
        }
        xml.writeEndElement();
        xml.writeEndDocument();
    }

    private static String points(double[] xy, Envelope box) {
        StringBuilder points = new StringBuilder();
        for (int k = 0; k < xy.length; k += 2) {
            points.append(k == 0 ? "" : " ").append(mm(xy[k] - box.getMinX())).append(',')
                    .append(mm(box.getMaxY() - xy[k + 1]));
        }
        return points.toString();
    }

    private static String mm(double value) {
        return String.format(Locale.ROOT, "%.3f", value);
    }
}
