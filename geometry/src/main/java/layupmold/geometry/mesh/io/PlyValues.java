package layupmold.geometry.mesh.io;

import java.nio.BufferUnderflowException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.mesh.io.PlyHeader.Element;
import layupmold.geometry.mesh.io.PlyHeader.Type;

/** The numbers of a PLY body, one after the other. */
sealed interface PlyValues {

    /** The next number. */
    double number(Type type);

    /** Passes over the next value. */
    void skip(Type type);

    /** Refuses an element that cannot fit into what is left of the file. */
    void require(Element element);

    /** Refuses a list that cannot fit into what is left of the file. */
    void requireItems(long count, Type type);

    /** Line or byte of the last number. */
    String where();

    /** Text of the last number, or null where it had none. */
    String token();

    /** Numbers as words. */
    final class Ascii implements PlyValues {

        private final TextCursor text;

        Ascii(byte[] bytes, int at) {
            text = new TextCursor(bytes, at);
        }

        @Override
        public double number(Type type) {
            skip(type);
            double value = DecimalParser.parse(text.bytes, text.from, text.to);
            if (Double.isNaN(value)) {
                throw Unreadable.coordinate(text.where(), value, text.token());
            }
            return value;
        }

        @Override
        public void skip(Type type) {
            if (!text.next()) {
                throw Unreadable.truncated(text.where() + ": the PLY file ends where a number is due");
            }
        }

        @Override
        public void require(Element element) {
            requireItems(element.count(), null);
        }

        @Override
        public void requireItems(long count, Type type) {
            // A number takes a digit and a space at the least.
            if (count > (text.end - text.at + 1) / 2) {
                throw tooFew(count, text.end);
            }
        }

        @Override
        public String where() {
            return text.where();
        }

        @Override
        public String token() {
            return text.token();
        }
    }

    /** Numbers as bytes. */
    final class Binary implements PlyValues {

        private final ByteBuffer buffer;

        Binary(byte[] bytes, int at, boolean bigEndian) {
            buffer = ByteBuffer.wrap(bytes).position(at)
                    .order(bigEndian ? ByteOrder.BIG_ENDIAN : ByteOrder.LITTLE_ENDIAN);
        }

        @Override
        public double number(Type type) {
            try {
                return switch (type) {
                    case CHAR -> buffer.get();
                    case UCHAR -> buffer.get() & 0xFF;
                    case SHORT -> buffer.getShort();
                    case USHORT -> buffer.getShort() & 0xFFFF;
                    case INT -> buffer.getInt();
                    case UINT -> buffer.getInt() & 0xFFFFFFFFL;
                    case FLOAT -> buffer.getFloat();
                    case DOUBLE -> buffer.getDouble();
                };
            } catch (BufferUnderflowException e) {
                throw ended();
            }
        }

        @Override
        public void skip(Type type) {
            if (buffer.remaining() < type.bytes) {
                throw ended();
            }
            buffer.position(buffer.position() + type.bytes);
        }

        private Rejection ended() {
            return Unreadable.truncated("the PLY file ends at byte " + buffer.limit() + ", where a number is due");
        }

        @Override
        public void require(Element element) {
            if (element.count() > buffer.remaining() / element.leastBytes()) {
                throw tooFew(element.count(), buffer.limit());
            }
        }

        @Override
        public void requireItems(long count, Type type) {
            if (count > buffer.remaining() / type.bytes) {
                throw tooFew(count, buffer.limit());
            }
        }

        @Override
        public String where() {
            return "byte " + buffer.position();
        }

        @Override
        public String token() {
            return null;
        }
    }

    private static Rejection tooFew(long count, int end) {
        return Unreadable.truncated("the PLY file announces " + count + " elements or items that do not fit into its "
                + end + " bytes");
    }
}
