package layupmold.geometry.mesh.io;

import java.io.FilterReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import layupmold.geometry.finding.Rejection;

/**
 * An XML part read as a stream, hardened: UTF-8 only, no document type, no external anything, bounded depth, bounded
 * length of any single tag or text.
 */
final class XmlPart {

    private static final int MOST_DEPTH = 64;
    private static final int EXPECTED_ATTRIBUTES = 8;
    private static final int LONGEST_RUN = 8 << 20;
    /** Names that the format does not define are kept by the parser; this bounds them. */
    private static final int MOST_STRANGERS = 2_000_000;

    private final String name;
    private final XMLStreamReader xml;
    private int depth;
    private int strangers;

    XmlPart(String name, InputStream content) {
        this.name = Unreadable.printable(name);
        XMLInputFactory factory = XMLInputFactory.newDefaultFactory();
        factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
        factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
        factory.setXMLResolver((publicId, systemId, base, namespace) -> {
            throw new XMLStreamException("external entities are not read");
        });
        // Decoding here keeps the parser from switching to an encoding the document asks for.
        Reader text = new InputStreamReader(content, StandardCharsets.UTF_8.newDecoder()
                .onMalformedInput(CodingErrorAction.REPORT).onUnmappableCharacter(CodingErrorAction.REPORT));
        try {
            xml = factory.createXMLStreamReader(new ShortRuns(text));
        } catch (XMLStreamException e) {
            throw bad(e);
        }
    }

    /** The parser, standing where {@link #next} left it. */
    XMLStreamReader xml() {
        return xml;
    }

    /** Moves to the next start or end of an element, or to the end of the document (false). */
    boolean next() {
        try {
            while (xml.hasNext()) {
                switch (xml.next()) {
                    case XMLStreamConstants.START_ELEMENT -> {
                        if (++depth > MOST_DEPTH) {
                            throw problem("elements are nested deeper than " + MOST_DEPTH);
                        }
                        countStranger(Math.max(0, xml.getAttributeCount() - EXPECTED_ATTRIBUTES));
                        return true;
                    }
                    case XMLStreamConstants.END_ELEMENT -> {
                        depth--;
                        return true;
                    }
                    case XMLStreamConstants.DTD -> throw problem("a document type is not allowed in 3MF");
                    case XMLStreamConstants.ENTITY_REFERENCE -> throw problem("an entity is not defined");
                    default -> {
                        // Text and comments mean nothing here.
                    }
                }
            }
            return false;
        } catch (XMLStreamException e) {
            throw bad(e);
        }
    }

    /** Passes over the element that just started, which has no meaning here, with all it holds. */
    void passOver() {
        countStranger(1);
        leave();
    }

    /** Moves to the end of the element that just started. */
    void leave() {
        int outside = depth - 1;
        while (depth > outside && next()) {
            if (atStart()) {
                countStranger(1);
            }
        }
    }

    private void countStranger(int names) {
        strangers += names;
        if (strangers > MOST_STRANGERS) {
            throw problem("holds too many elements that are not part of a mesh");
        }
    }

    boolean atStart() {
        return xml.getEventType() == XMLStreamConstants.START_ELEMENT;
    }

    private Rejection bad(XMLStreamException e) {
        String[] lines = String.valueOf(e.getMessage()).split("\n");
        String last = lines[lines.length - 1].replace("Message: ", "");
        if (last.contains("end of file") || last.contains("must start and end within the same entity")) {
            return Unreadable.truncated(place() + ": the part ends too soon");
        }
        String shown = last.length() > 120 ? last.substring(0, 120) : last;
        return problem("not well-formed: " + shown.replaceAll("[^ -~]", "?"));
    }

    Rejection problem(String what) {
        return Unreadable.because("bad-xml", place() + ": " + what, "The file is damaged: export it again.");
    }

    /** "/3d/3dmodel.model, line 12". */
    String place() {
        return xml == null ? name : name + ", line " + xml.getLocation().getLineNumber();
    }

    /** Refuses any run of characters without a tag start that is too long to be honest. */
    private static final class ShortRuns extends FilterReader {

        private int run;

        ShortRuns(Reader in) {
            super(in);
        }

        @Override
        public int read(char[] target, int offset, int length) throws IOException {
            int got = super.read(target, offset, length);
            int last = got - 1;
            while (last >= 0 && target[offset + last] != '<') {
                last--;
            }
            run = last >= 0 ? got - 1 - last : run + Math.max(0, got);
            if (run > LONGEST_RUN) {
                throw Unreadable.because("bad-xml", "an XML tag or text is longer than " + LONGEST_RUN
                        + " characters", "The file is damaged: export it again.");
            }
            return got;
        }
    }
}
