package layupmold.service.webhook;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.net.InetAddress;
import java.net.UnknownHostException;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class SignatureTest {

    /** The reference vector of Standard Webhooks' test suites. */
    @Test
    void agreesWithTheReferenceVector() {
        assertEquals("v1,g0hM9SsE+OTPJTGt/tmIKtSyZlE3uFJELVlNIOLJ1OE=", Signature.of(
                "whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw", "msg_p5jXN8AQM9LWM0D4loKWxJek", 1614265330,
                "{\"test\": 2432232314}".getBytes(StandardCharsets.UTF_8)));
    }

    @Test
    void secretsAreRandomAndLongEnough() {
        String secret = Signature.newSecret();
        assertTrue(Signature.isSecret(secret));
        assertNotEquals(secret, Signature.newSecret());
        assertFalse(Signature.isSecret("whsec_c2hvcnQ="));
        assertFalse(Signature.isSecret("MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw"));
        assertFalse(Signature.isSecret("whsec_*"));
    }

    /** Blocks of the IANA special-purpose address registries (RFC 6890), their first and last addresses among them. */
    @ParameterizedTest
    @ValueSource(strings = {"127.0.0.1", "127.255.255.255", "10.0.0.1", "172.16.0.1", "172.31.255.255", "192.168.1.1",
        "169.254.169.254", "0.0.0.0", "0.1.2.3", "100.64.0.1", "100.127.255.255", "192.0.0.170", "198.18.0.1",
        "198.19.255.255", "224.0.0.1", "255.255.255.255", "240.0.0.1", "::1", "::", "fe80::1", "fc00::1",
        "fdff:ffff::1", "ff02::1", "::ffff:127.0.0.1", "::ffff:10.0.0.1", "64:ff9b::7f00:1", "2002:7f00:1::", "2001:db8::1",
        "fec0::1", "::7f00:1"})
    void addressesThatAreNotPublic(String address) throws UnknownHostException {
        assertFalse(PublicAddress.is(InetAddress.getByName(address)));
    }

    @ParameterizedTest
    @ValueSource(strings = {"8.8.8.8", "1.1.1.1", "100.63.255.255", "100.128.0.1", "172.32.0.1", "198.17.255.255",
        "198.20.0.1", "223.255.255.254", "2606:4700::1111", "2a00:1450::1", "2400::1"})
    void addressesThatArePublic(String address) throws UnknownHostException {
        assertTrue(PublicAddress.is(InetAddress.getByName(address)));
    }
}
