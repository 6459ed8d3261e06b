package layupmold.service.access;

import static org.hamcrest.Matchers.hasSize;

import com.nimbusds.jose.JWSAlgorithm;
import com.nimbusds.jose.JWSHeader;
import com.nimbusds.jose.crypto.RSASSASigner;
import com.nimbusds.jose.jwk.JWKSet;
import com.nimbusds.jose.jwk.RSAKey;
import com.nimbusds.jose.jwk.gen.RSAKeyGenerator;
import com.nimbusds.jwt.JWTClaimsSet;
import com.nimbusds.jwt.PlainJWT;
import com.nimbusds.jwt.SignedJWT;
import com.sun.net.httpserver.HttpServer;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.Date;
import layupmold.service.Parts;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** Tokens (RFC 9068) of an OAuth 2 server, here one that only publishes its keys. */
class JwtTest {

    private static HttpServer authority;
    private static RSAKey signing;
    private static KeyRing keys;

    @BeforeAll
    static void start() throws Exception {
        signing = new RSAKeyGenerator(2048).keyID("k1").generate();
        byte[] published = new JWKSet(signing.toPublicJWK()).toString().getBytes(StandardCharsets.UTF_8);
        authority = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
        authority.createContext("/keys", exchange -> {
            exchange.sendResponseHeaders(200, published.length);
            exchange.getResponseBody().write(published);
            exchange.close();
        });
        authority.start();
        keys = new KeyRing("spring.security.oauth2.resourceserver.jwt.jwk-set-uri=http://127.0.0.1:"
                + authority.getAddress().getPort() + "/keys",
                "spring.security.oauth2.resourceserver.jwt.audiences=layupmold");
    }

    @AfterAll
    static void stop() {
        keys.close();
        authority.stop(0);
    }

    private static JWTClaimsSet.Builder claims(String subject, String scope) {
        return new JWTClaimsSet.Builder().subject(subject).audience("layupmold").claim("scope", scope)
                .expirationTime(Date.from(Instant.now().plusSeconds(300)));
    }

    private static String signed(RSAKey key, JWTClaimsSet.Builder claims) throws Exception {
        SignedJWT token = new SignedJWT(new JWSHeader.Builder(JWSAlgorithm.RS256).keyID("k1").build(), claims.build());
        token.sign(new RSASSASigner(key));
        return token.serialize();
    }

    @Test
    void scopesAndSubjectOfATokenCount() throws Exception {
        String ann = signed(signing, claims("ann", "submit read"));
        String mold = keys.with(ann).contentType("model/stl").body(Parts.tetrahedron(21)).post("/v1/molds").then()
                .statusCode(202).extract().header("Location");
        keys.with(ann).get(mold).then().statusCode(200);
        keys.with(ann).get("/v1/keys").then().statusCode(403);
        keys.with(signed(signing, claims("ben", "read"))).get(mold).then().statusCode(404);
        keys.with(keys.key("ann", "\"read\"", "")).get("/v1/molds").then().statusCode(200).body("items", hasSize(0));
    }

    @Test
    void tokensThatDoNotHoldAreRefused() throws Exception {
        RSAKey other = new RSAKeyGenerator(2048).keyID("k1").generate();
        keys.with(signed(other, claims("ann", "read"))).get("/v1/molds").then().statusCode(401);
        keys.with(new PlainJWT(claims("ann", "read").build()).serialize()).get("/v1/molds").then().statusCode(401);
        keys.with(signed(signing, claims("ann", "read").audience("someone else"))).get("/v1/molds").then().statusCode(401);
        keys.with(signed(signing, claims("ann", "read").expirationTime(Date.from(Instant.now().minusSeconds(120)))))
                .get("/v1/molds").then().statusCode(401);
        keys.with(signed(signing, claims(null, "read"))).get("/v1/molds").then().statusCode(401);
    }
}
