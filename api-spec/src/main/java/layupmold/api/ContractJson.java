package layupmold.api;

import io.micronaut.serde.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Map;

/**
 * JSON of the contract's records, strict: unknown members are errors when reading; nulls are left out, empty lists are
 * written. Thread-safe.
 */
public final class ContractJson {

    private static final ObjectMapper MAPPER = ObjectMapper.create(
            Map.of(
                    "micronaut.serde.serialization.inclusion", "NON_NULL",
                    "micronaut.serde.deserialization.ignore-unknown", false,
                    "micronaut.serde.write-dates-as-timestamps", false),
            "layupmold.api");

    private ContractJson() {
    }

    /** UTF-8 JSON of a record. */
    public static byte[] write(Object record) {
        try {
            return MAPPER.writeValueAsBytes(record);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /**
     * @throws IOException if the bytes are not JSON or do not fit the type
     */
    public static <T> T read(byte[] json, Class<T> type) throws IOException {
        return MAPPER.readValue(json, type);
    }

    /**
     * @throws IOException if the stream breaks, is not JSON or does not fit the type
     */
    public static <T> T read(InputStream json, Class<T> type) throws IOException {
        return MAPPER.readValue(json, type);
    }
}
