package layupmold.geometry.mesh.io;

import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.finding.Rejection;

/**
 * The header of a PLY file: which elements follow, how often, and with which properties.
 *
 * @param encoding how the body is written
 * @param elements in file order
 * @param bodyAt first byte after the header
 */
record PlyHeader(Encoding encoding, List<Element> elements, int bodyAt) {

    enum Encoding { ASCII, LITTLE_ENDIAN, BIG_ENDIAN }

    /** Scalar types, under their old and their sized names. */
    enum Type {
        CHAR(1), UCHAR(1), SHORT(2), USHORT(2), INT(4), UINT(4), FLOAT(4), DOUBLE(8);

        final int bytes;

        Type(int bytes) {
            this.bytes = bytes;
        }

        static Type of(String name) {
            return switch (name) {
                case "char", "int8" -> CHAR;
                case "uchar", "uint8" -> UCHAR;
                case "short", "int16" -> SHORT;
                case "ushort", "uint16" -> USHORT;
                case "int", "int32" -> INT;
                case "uint", "uint32" -> UINT;
                case "float", "float32" -> FLOAT;
                case "double", "float64" -> DOUBLE;
                default -> null;
            };
        }
    }

    /**
     * @param name what it is
     * @param type type of the value, or of a list's items
     * @param countType type of a list's length, or null for a single value
     */
    record Property(String name, Type type, Type countType) {
    }

    record Element(String name, long count, List<Property> properties) {

        /** Bytes that one element takes at the least in a binary body. */
        long leastBytes() {
            return properties.stream().mapToLong(p -> p.countType() == null ? p.type().bytes : p.countType().bytes)
                    .sum();
        }
    }

    static PlyHeader parse(byte[] bytes) {
        return new Parser(bytes).parse();
    }

    private static final class Parser {

        private final TextCursor text;
        private final List<Element> elements = new ArrayList<>();
        private Encoding encoding;

        Parser(byte[] bytes) {
            text = new TextCursor(bytes, 0);
        }

        PlyHeader parse() {
            text.next();
            endLine();
            while (true) {
                if (!text.next()) {
                    throw Unreadable.truncated(text.where() + ": the PLY header has no end_header");
                }
                switch (text.token()) {
                    case "format" -> format();
                    case "comment", "obj_info" -> text.skipLine();
                    case "element" -> element();
                    case "property" -> property();
                    case "end_header" -> {
                        return end();
                    }
                    default -> throw text.unexpected("a PLY header line");
                }
            }
        }

        private PlyHeader end() {
            // A lone carriage return ends lines only where the first line says so: the body may start with any byte.
            boolean lone = text.bytes[3] == '\r' && text.bytes.length > 4 && text.bytes[4] != '\n';
            if (lone) {
                text.at = Math.min(text.end, text.at + 1);
            } else {
                endLine();
            }
            if (encoding == null) {
                throw Unreadable.syntax("the PLY header does not say its format");
            }
            return new PlyHeader(encoding, List.copyOf(elements), text.at);
        }

        private void format() {
            encoding = switch (word("a format")) {
                case "ascii" -> Encoding.ASCII;
                case "binary_little_endian" -> Encoding.LITTLE_ENDIAN;
                case "binary_big_endian" -> Encoding.BIG_ENDIAN;
                default -> throw text.unexpected("ascii, binary_little_endian or binary_big_endian");
            };
            text.skipLine();
        }

        private void element() {
            String name = word("an element name");
            String digits = word("an element count");
            if (!digits.matches("[0-9]{1,18}")) {
                throw text.unexpected("an element count");
            }
            elements.add(new Element(name, Long.parseLong(digits), new ArrayList<>()));
            if (elements.size() > 100) {
                throw tooMuch();
            }
            text.skipLine();
        }

        private void property() {
            if (elements.isEmpty()) {
                throw text.unexpected("an element before its properties");
            }
            List<Property> properties = elements.get(elements.size() - 1).properties();
            String first = word("a property type");
            Type countType = null;
            if (first.equals("list")) {
                countType = type(word("the type of a list's length"));
                first = word("the type of a list's items");
            }
            Type type = type(first);
            properties.add(new Property(word("a property name"), type, countType));
            if (properties.size() > 1000) {
                throw tooMuch();
            }
            text.skipLine();
        }

        private Rejection tooMuch() {
            return Unreadable.syntax(text.where() + ": the PLY header lists too many elements or properties");
        }

        private Type type(String name) {
            Type type = Type.of(name);
            if (type == null) {
                throw text.unexpected("a PLY type");
            }
            return type;
        }

        private String word(String what) {
            if (!text.nextOnLine()) {
                throw text.unexpected(what);
            }
            return text.token();
        }

        private void endLine() {
            text.skipLine();
        }
    }
}
