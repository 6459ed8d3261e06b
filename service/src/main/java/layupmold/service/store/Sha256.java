package layupmold.service.store;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** SHA-256 as lower-case hexadecimal. */
public final class Sha256 {

    private Sha256() {
    }

    public static MessageDigest digest() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }

    public static String hex(byte[] bytes) {
        return HexFormat.of().formatHex(digest().digest(bytes));
    }

    public static String hex(String text) {
        return hex(text.getBytes(StandardCharsets.UTF_8));
    }

    /** Guards paths and object names against anything that is not a hash. */
    static void requireHex(String key) {
        if (!key.matches("[0-9a-f]{64}")) {
            throw new IllegalArgumentException("not a SHA-256: " + key);
        }
    }
}
