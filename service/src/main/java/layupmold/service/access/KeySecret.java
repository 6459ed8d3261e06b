package layupmold.service.access;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.Base64;
import java.util.HexFormat;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import layupmold.service.store.Sha256;

/**
 * A key as its owner sends it: {@code lm_}, its identifier, and 256 random bits. A plain hash keeps it safe at rest:
 * slow hashes are for secrets that can be guessed.
 *
 * @param id looks the key up
 * @param secret proves that it is the key
 */
record KeySecret(String id, String secret) {

    private static final String PREFIX = "lm_";
    private static final Pattern FORM = Pattern.compile(PREFIX + "([0-9a-f]{16})_([A-Za-z0-9-_]{43})");
    private static final SecureRandom RANDOM = new SecureRandom();

    static KeySecret random() {
        byte[] id = new byte[8];
        byte[] secret = new byte[32];
        RANDOM.nextBytes(id);
        RANDOM.nextBytes(secret);
        return new KeySecret(HexFormat.of().formatHex(id), Base64.getUrlEncoder().withoutPadding().encodeToString(secret));
    }

    /** Empty if the token has not the form of a key. */
    static Optional<KeySecret> parse(String token) {
        Matcher form = FORM.matcher(token);
        return form.matches() ? Optional.of(new KeySecret(form.group(1), form.group(2))) : Optional.empty();
    }

    String token() {
        return PREFIX + id + "_" + secret;
    }

    String hash() {
        return Sha256.hex(secret);
    }

    /** Takes the same time wherever the hashes differ. */
    boolean matches(String hash) {
        return MessageDigest.isEqual(hash().getBytes(StandardCharsets.US_ASCII), hash.getBytes(StandardCharsets.US_ASCII));
    }

    /** Never in a log. */
    @Override
    public String toString() {
        return PREFIX + id;
    }
}
