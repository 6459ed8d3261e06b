package layupmold.service.webhook;

import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.security.SecureRandom;
import java.util.Base64;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;

/** Signs messages as Standard Webhooks 1.0 has it: HMAC-SHA256 over {@code id.timestamp.body}, scheme v1. */
final class Signature {

    static final String PREFIX = "whsec_";

    private static final int SECRET_BYTES = 32;
    private static final SecureRandom RANDOM = new SecureRandom();

    private Signature() {
    }

    static String newSecret() {
        byte[] bytes = new byte[SECRET_BYTES];
        RANDOM.nextBytes(bytes);
        return PREFIX + Base64.getEncoder().encodeToString(bytes);
    }

    /** Whether it is the prefix and 24 to 64 bytes in Base64. */
    static boolean isSecret(String secret) {
        try {
            int bytes = secret.startsWith(PREFIX) ? key(secret).length : 0;
            return bytes >= 24 && bytes <= 64;
        } catch (IllegalArgumentException notBase64) {
            return false;
        }
    }

    /** Value of the header {@code webhook-signature}. */
    static String of(String secret, String id, long timestamp, byte[] body) {
        try {
            Mac mac = Mac.getInstance("HmacSHA256");
            mac.init(new SecretKeySpec(key(secret), "HmacSHA256"));
            mac.update((id + "." + timestamp + ".").getBytes(StandardCharsets.UTF_8));
            return "v1," + Base64.getEncoder().encodeToString(mac.doFinal(body));
        } catch (GeneralSecurityException e) {
            throw new IllegalStateException("every Java platform has HmacSHA256", e);
        }
    }

    private static byte[] key(String secret) {
        return Base64.getDecoder().decode(secret.substring(PREFIX.length()));
    }
}
